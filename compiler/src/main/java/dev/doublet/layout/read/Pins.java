package dev.doublet.layout.read;

import dev.doublet.diagnostic.Fix;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Pinning;
import dev.doublet.layout.Pinning.Automatic;
import dev.doublet.layout.read.Design.UnitDesign;
import dev.doublet.syntax.YamlAddition;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlText;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What a layout does not say of addresses and values, and where it could. An address is written at
 * the signal; values are written where {@code by} is, for all that share it, and at those signals
 * that need others.
 */
final class Pins {
  /** Entries that addresses and values may follow: each has a single value. */
  private static final List<Key<?>> ANCHORS = List.of(Keys.BY, Keys.LED, Keys.KIND_OF, Keys.NAME);

  private final boolean pinned;
  private final Map<YamlNode.Mapping, Lack> lacks = new IdentityHashMap<>();
  private final Map<YamlNode.Entry, Unsaid> shared = new IdentityHashMap<>();
  private final List<Waiting> waiting = new ArrayList<>();

  /**
   * Starts with nothing missing.
   *
   * @param pinned true when the layout is to say everything
   */
  Pins(boolean pinned) {
    this.pinned = pinned;
  }

  /**
   * What a design does not say of its values.
   *
   * @param values what each calls up, by value
   * @param listed true when addresses must be listed one by one, as there are more of them than the
   *     values need
   */
  record Unsaid(Map<Integer, String> values, boolean listed) {}

  /** What one mapping lacks. */
  private static final class Lack {
    private final Section section;
    private final Optional<YamlNode.Entry> after;
    private final List<Integer> addresses = new ArrayList<>();
    private boolean listed;
    private Optional<Unsaid> unsaid = Optional.empty();
    private Optional<Counted> counted = Optional.empty();

    Lack(Section section, Optional<YamlNode.Entry> after) {
      this.section = section;
      this.after = after;
    }
  }

  /** An entry that says the first address, and all that there are. */
  private record Counted(YamlNode.Entry entry, List<Integer> addresses) {

    YamlAddition.Key listed() {
      return YamlAddition.Key.of(Keys.ADDRESSES.name(), addresses.toString());
    }

    Fix.Edit edit() {
      return new Fix.Edit(entry.key().span().to(entry.value().span()), listed().toString());
    }
  }

  /** A unit of a pinned layout that is not told where it listens. */
  private record Waiting(Bus bus, int count, Lack lack) {}

  /** True when the layout is to say everything. */
  boolean isPinned() {
    return pinned;
  }

  /**
   * Addresses that were not said.
   *
   * @param section the signal that could say them
   * @param listed true when they must be listed one by one
   */
  void addresses(Section section, List<Integer> addresses, boolean listed) {
    Lack lack = lack(section);
    lack.addresses.addAll(addresses);
    lack.listed |= listed;
  }

  /**
   * Addresses of which the first is said, and how many there are follows from the rulebook.
   *
   * @param said what the signal says, based on its kind
   */
  void counted(Section said, List<Integer> addresses) {
    lack(said.holder(Keys.ADDRESS)).counted =
        Optional.of(new Counted(said.entry(Keys.ADDRESS).orElseThrow(), List.copyOf(addresses)));
  }

  /** Addresses that a pinned layout had to say, and that nobody knows. */
  void waiting(Section section, Bus bus, int count, boolean listed) {
    Lack lack = lack(section);
    lack.listed |= listed;
    waiting.add(new Waiting(bus, count, lack));
  }

  /**
   * Values that were not said.
   *
   * @param own what the signal says, for itself
   * @param unit what has them
   * @param said what the signal or head says, based on its kind
   */
  void values(Section own, UnitDesign unit, Section said) {
    if (unit.unsaid().isEmpty()) {
      return;
    }
    YamlNode.Entry by = said.entry(Keys.BY).orElseThrow();
    Unsaid unsaid = unit.unsaid().get();
    Unsaid first = shared.putIfAbsent(by, unsaid);
    if (first == null) {
      lack(said.holder(Keys.BY)).unsaid = Optional.of(unsaid);
    } else if (!first.equals(unsaid)) {
      lack(own).unsaid = Optional.of(unsaid);
    }
  }

  private Lack lack(Section section) {
    return lacks.computeIfAbsent(
        section.mapping().orElseThrow(), m -> new Lack(section, anchor(section)));
  }

  /** Empty for a signal that says nothing of itself, not even its name. */
  private static Optional<YamlNode.Entry> anchor(Section section) {
    return ANCHORS.stream().filter(section::ownSays).findFirst().flatMap(section::entry);
  }

  /**
   * All that is missing; units that are not told where they listen are given the addresses after
   * the last one taken.
   */
  Pinning made(Section layout, Listening listening) {
    for (Waiting unit : waiting) {
      unit.lack.addresses.addAll(listening.afterTheLast(unit.bus, unit.count));
    }
    return new Pinning(
        pinned,
        pinned ? List.of() : saying(layout),
        lacks.values().stream()
            .filter(lack -> lack.after.isPresent())
            .map(Pins::automatic)
            .sorted(Comparator.comparing(Automatic::span))
            .toList());
  }

  private static List<Fix.Edit> saying(Section layout) {
    String pinned = ((Takes.Word<Boolean>) Keys.NUMBERING.takes()).wordFor(true);
    if (layout.says(Keys.NUMBERING)) {
      return List.of(new Fix.Edit(layout.at(Keys.NUMBERING), pinned));
    }
    List<YamlAddition.Key> key = List.of(YamlAddition.Key.of(Keys.NUMBERING.name(), pinned));
    return layout
        .entry(Keys.RULEBOOK)
        .map(e -> YamlAddition.of(layout.mapping().orElseThrow(), e, key))
        .stream()
        .toList();
  }

  private static Automatic automatic(Lack lack) {
    List<YamlAddition.Key> keys = keys(lack);
    List<Fix.Edit> edits = new ArrayList<>();
    lack.counted.ifPresent(c -> edits.add(c.edit()));
    if (!keys.isEmpty()) {
      edits.add(
          YamlAddition.of(lack.section.mapping().orElseThrow(), lack.after.orElseThrow(), keys));
    }
    return new Automatic(
        lack.addresses.size(),
        lack.unsaid.map(u -> u.values().size()).orElse(0),
        Stream.concat(lack.counted.stream().map(Counted::listed), keys.stream())
            .map(YamlAddition.Key::toString)
            .collect(Collectors.joining(", ")),
        edits,
        lack.section.span());
  }

  private static List<YamlAddition.Key> keys(Lack lack) {
    List<YamlAddition.Key> keys = new ArrayList<>();
    if (!lack.addresses.isEmpty()) {
      keys.add(
          lack.listed
              ? YamlAddition.Key.of(Keys.ADDRESSES.name(), lack.addresses.toString())
              : YamlAddition.Key.of(Keys.ADDRESS.name(), lack.addresses.get(0).toString()));
    }
    lack.unsaid.ifPresent(
        unsaid -> {
          List<YamlAddition.Key> values = new ArrayList<>();
          unsaid
              .values()
              .forEach(
                  (value, name) ->
                      values.add(YamlAddition.Key.of(value.toString(), YamlText.of(name))));
          keys.add(new YamlAddition.Key(Keys.VALUES.name(), "", values));
        });
    return keys;
  }
}
