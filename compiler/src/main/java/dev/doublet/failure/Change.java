package dev.doublet.failure;

import dev.doublet.failure.Before.Sight;
import dev.doublet.failure.Hazard.Occurrence;
import dev.doublet.failure.Site.AspectPicture;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.source.Span;
import java.util.BitSet;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.UnaryOperator;

/** Some patterns of a rulebook written as another picture, held against how all sites are now. */
final class Change {
  private final Before before;
  private final List<Display> picture;
  private final Map<Pattern, Reads> changed = new LinkedHashMap<>();
  private final Map<Form, Crew> crews = new HashMap<>();
  private final Map<Sight, Crew.Read> madeOut = new HashMap<>();
  private final Map<Site, List<Occurrence>> ofPicture = new HashMap<>();
  private List<Occurrence> ofOthers;

  Change(Before before, BookPatterns was, Set<Pattern> old, List<Display> picture) {
    this.before = before;
    this.picture = List.copyOf(picture);
    UnaryOperator<Pattern> rewritten = p -> old.contains(p) ? rewritten(p) : p;
    for (Pattern pattern : old) {
      for (Aspect aspect : was.aspects(pattern)) {
        Aspect now = aspect.with(aspect.patterns().stream().map(rewritten).toList());
        changed.put(pattern, new Reads(now, rewritten(pattern)));
      }
    }
  }

  private Pattern rewritten(Pattern pattern) {
    Span span = pattern.choices().get(0).span();
    List<Choice> choices = picture.stream().map(d -> new Choice(List.of(d), span)).toList();
    return new Pattern(pattern.form(), pattern.plates(), choices, pattern.span());
  }

  /** What the patterns are then. */
  List<Display> picture() {
    return picture;
  }

  /** True when a hazard is gone from where it is found. */
  boolean removes(Hazard hazard) {
    return hazard.found().stream()
            .map(Occurrence::site)
            .distinct()
            .noneMatch(site -> hazard.isSeenIn(ofPicture(site)))
        && !hazard.isSeenIn(ofOthers());
  }

  /** True when nothing at any site is misread that was not. */
  boolean isHarmless() {
    return before.sites().stream().allMatch(site -> site.holds(changed, picture))
        && before.knows(ofOthers())
        && before.sites().stream().allMatch(site -> before.knows(ofPicture(site)));
  }

  /** Every fault at the aspects shown otherwise. */
  private List<Occurrence> ofPicture(Site site) {
    return ofPicture.computeIfAbsent(
        site,
        key ->
            site.shown().stream()
                .filter(s -> changed.containsKey(s.by().pattern()))
                .map(s -> new AspectPicture(changed.get(s.by().pattern()), picture, s.span()))
                .distinct()
                .flatMap(s -> site.trials(picture).stream().map(t -> found(site, s, t)))
                .toList());
  }

  private Occurrence found(Site site, AspectPicture shown, Trial trial) {
    Crew.Read read = madeOut(site.crew(), Sight.of(site, trial));
    return new Occurrence(site, Case.of(shown, trial, site.crew().orDark(read)));
  }

  /** Every fault at other aspects that is read otherwise then. */
  private List<Occurrence> ofOthers() {
    if (ofOthers == null) {
      ofOthers =
          before.readOtherwise(concerned(), this::madeOut).stream()
              .filter(f -> !changed.containsKey(f.one().shown().by().pattern()))
              .toList();
    }
    return ofOthers;
  }

  private BitSet concerned() {
    BitSet concerned = new BitSet();
    changed.forEach(
        (was, now) -> {
          concerned.or(before.index().concernedBy(was));
          concerned.or(before.index().concernedBy(now.pattern()));
        });
    before.sites().stream()
        .map(Site::crew)
        .filter(was -> !was.sameAnything(crew(was)))
        .forEach(was -> concerned.or(before.index().of(was.form())));
    return concerned;
  }

  private Crew.Read madeOut(Crew was, Sight sight) {
    return madeOut.computeIfAbsent(sight, s -> crew(was).madeOut(s.seen(), s.plates()));
  }

  /** It shows the same aspects, so what is dark is read as before. */
  private Crew crew(Crew was) {
    return crews.computeIfAbsent(was.form(), form -> was.with(changed));
  }
}
