package dev.doublet.layout;

import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;

/**
 * What units that differ only in place and address have in common. Equal kinds of one layout are
 * the same object, so that checks and tables work once a kind and not once a signal.
 *
 * @param form name of the form, for a whole signal; empty for a head commanded by itself
 * @param heads names of the heads' makes, top to bottom
 * @param plates names of the plates carried, sorted
 * @param leds how many places of a chain the unit takes
 * @param states what can be called up; aspects that the heads cannot show are left out, so it may
 *     be empty
 * @param rest index of the state shown before the first command: the most restrictive
 * @param way how it is commanded
 * @param answers what each command value calls up, sorted by value, each value once; for aspect
 *     numbers, topics and events the value is the state's number, for outputs it may lie out of
 *     reach of the addresses
 * @param onApproach true when it is dark while its controller is told that no train approaches
 * @param glows how each lamp goes from one light to another; empty when all switch at once
 * @param feeds what lights its lamps, place by place; empty when each has an LED of its own
 * @param otherwise what a value does that calls up nothing
 */
public record Kind(
    String form,
    List<String> heads,
    List<String> plates,
    int leds,
    List<State> states,
    int rest,
    Way way,
    List<Answer> answers,
    boolean onApproach,
    List<Glow> glows,
    List<Feed> feeds,
    Otherwise otherwise) {

  /** Copies and sorts the lists. */
  public Kind {
    heads = List.copyOf(heads);
    plates = plates.stream().sorted().toList();
    states = List.copyOf(states);
    answers = answers.stream().sorted().toList();
    glows = List.copyOf(glows);
    feeds = List.copyOf(feeds);
  }

  /** Cheap, as kinds hold whole aspects and are looked up often. */
  @Override
  public int hashCode() {
    return Objects.hash(form, heads, plates, leds, rest, way, otherwise);
  }

  /** What a value does that calls up nothing. */
  public enum Otherwise {
    /** Nobody said; the table then takes the most restrictive. */
    UNSAID,
    /** What was said could not be read. */
    UNREAD,
    /** The most restrictive state. */
    MOST_RESTRICTIVE,
    /** The present state stays, as MOROP NEM 672 has it. */
    KEEP
  }

  /**
   * The index of the state a value calls up.
   *
   * @return -1 when it calls up nothing
   */
  public int stateFor(int value) {
    int low = 0;
    int high = answers.size() - 1;
    while (low <= high) {
      int middle = (low + high) >>> 1;
      int found = answers.get(middle).value();
      if (found == value) {
        return answers.get(middle).state();
      }
      if (found < value) {
        low = middle + 1;
      } else {
        high = middle - 1;
      }
    }
    return -1;
  }

  /**
   * How each lamp goes from one light to another on LEDs of a part: a vane passes nothing when the
   * part has no drive for its middle colour, and before an output of a chip. Empty when all switch
   * at once whatever the part.
   */
  public List<Glow> glowsOn(Part part) {
    List<Glow> on = new ArrayList<>();
    for (Glow glow : glows) {
      boolean passes = part.drive().containsKey(glow.middle()) && chip(on.size()).isEmpty();
      on.add(passes ? glow : new Glow(glow.filament(), ""));
    }
    return on;
  }

  /**
   * The colours that the vane before each LED passes on LEDs of a part, whether or not any aspect
   * shows them: the middle one where an LED shows two others. No sets when all switch at once.
   */
  public List<Set<String>> passedOn(Part part) {
    List<Glow> on = glowsOn(part);
    List<Set<String>> passed = new ArrayList<>();
    for (int i = 0; i < on.size(); i++) {
      int led = i;
      String middle = on.get(led).middle();
      long others =
          states.stream()
              .map(s -> s.lit().get(led).look())
              .filter(look -> !look.equals(Display.DARK.look()) && !look.equals(middle))
              .distinct()
              .count();
      passed.add(!middle.isEmpty() && others > 1 ? Set.of(middle) : Set.of());
    }
    return passed;
  }

  /** How many lamps the unit has. */
  public int lamps() {
    return feeds.isEmpty() ? leds : (int) feeds.stream().flatMap(Feed::lit).count();
  }

  /** What lights its lamps, place by place. */
  public List<Feed> places() {
    return feeds.isEmpty() ? Feed.leds(leds) : feeds;
  }

  /** The chip that lights a lamp; empty for an LED. */
  public Optional<Chip> chip(int lamp) {
    return feeds.stream().filter(f -> f.lamps().contains(lamp)).findFirst().flatMap(Feed::chip);
  }

  /** True for a whole signal, false for a head commanded by itself. */
  public boolean isWholeSignal() {
    return !form.isEmpty();
  }

  /** Names of the states that are one aspect of many numbers, in order. */
  public List<String> ofFamily(String family) {
    return states.stream()
        .filter(s -> s.aspect().filter(a -> a.family().equals(family)).isPresent())
        .map(State::name)
        .toList();
  }

  /** Names of the states, in order. */
  public List<String> stateNames() {
    List<String> names = new ArrayList<>();
    states.forEach(s -> names.add(s.name()));
    return names;
  }
}
