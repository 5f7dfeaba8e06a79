package dev.doublet.failure;

import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Signal;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * What commands can make a signal show.
 *
 * @param shown each aspect, with each picture that is meant by it
 * @param meaningless pictures of heads commanded by themselves that are meant by no aspect
 * @param untried how many pictures were not looked at because there are too many
 */
public record Repertoire(List<AspectPicture> shown, List<List<Display>> meaningless, long untried) {

  /** Copies the lists. */
  public Repertoire {
    shown = List.copyOf(shown);
    meaningless = List.copyOf(meaningless);
  }

  /** What the commands of one signal can show. */
  public static Repertoire of(Rulebook book, Signal signal) {
    Kind kind = signal.units().get(0).kind();
    return kind.isWholeSignal() ? whole(signal, kind) : byHead(book, signal);
  }

  private static Repertoire whole(Signal signal, Kind kind) {
    List<AspectPicture> shown = new ArrayList<>();
    for (State state : kind.states()) {
      Aspect aspect = state.aspect().orElseThrow();
      aspect.patternsOn(signal.build().form()).stream()
          .filter(p -> signal.build().plates().containsAll(p.plates()))
          .filter(p -> p.covers(state.picture()))
          .max(Comparator.comparingInt(p -> p.plates().size()))
          .ifPresent(
              p ->
                  shown.add(
                      new AspectPicture(new Reads(aspect, p), state.picture(), signal.span())));
    }
    return new Repertoire(shown, List.of(), 0);
  }

  /** Every picture of heads that are commanded by themselves, up to a bound. */
  private static Repertoire byHead(Rulebook book, Signal signal) {
    List<Reads> patterns = Reading.on(book, signal.build().form());
    List<List<Display>> options = new ArrayList<>();
    long all = 1;
    long tried = 1;
    for (List<Display> shows : shows(signal)) {
      all *= shows.size();
      List<Display> some = tried * shows.size() > Site.MOST_PICTURES ? shows.subList(0, 1) : shows;
      tried *= some.size();
      options.add(some);
    }
    List<AspectPicture> shown = new ArrayList<>();
    List<List<Display>> meaningless = new ArrayList<>();
    for (List<Display> picture : Crew.pictures(options)) {
      List<Reads> meant = Reading.of(patterns, signal.build().plates(), picture);
      meant.forEach(m -> shown.add(new AspectPicture(m, picture, signal.span())));
      if (meant.isEmpty()) {
        meaningless.add(picture);
      }
    }
    return new Repertoire(shown, meaningless, all - tried);
  }

  /** What each head can be told to show, top to bottom. */
  private static List<List<Display>> shows(Signal signal) {
    List<List<Display>> shows = new ArrayList<>();
    for (int place = 0; place < signal.build().wired().size(); place++) {
      Unit unit = signal.units().get(signal.build().wired().indexOf(place));
      shows.add(unit.kind().states().stream().map(s -> s.picture().get(0)).toList());
    }
    return shows;
  }
}
