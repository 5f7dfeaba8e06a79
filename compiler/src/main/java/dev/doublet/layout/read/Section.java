package dev.doublet.layout.read;

import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/**
 * One mapping of a layout file, read key by key. A key that is written wrongly is complained of and
 * then counts as not said. What this section does not say, the section it is based on may.
 */
final class Section {
  private static final String WHOLE = "a whole number";

  private final List<YamlNode.Entry> entries;
  private final Span place;
  private final Complaints complaints;
  private final Section base;

  private Section(List<YamlNode.Entry> entries, Span place, Complaints complaints, Section base) {
    this.entries = entries;
    this.place = place;
    this.complaints = complaints;
    this.base = base;
  }

  /**
   * A mapping whose keys must be of a list. A misspelt key is complained of and then read as the
   * one that was meant, so that nobody is told as well that this one is missing.
   */
  static Section of(YamlNode.Mapping mapping, Keys keys, Span place, Complaints complaints) {
    List<YamlNode.Entry> read = new ArrayList<>();
    for (YamlNode.Entry entry : mapping.entries()) {
      YamlNode.Scalar key = entry.key();
      if (keys.words().contains(key.text())) {
        read.add(entry);
      } else {
        complaints
            .unknownKey(key, keys.owner(), keys.words())
            .filter(meant -> find(mapping.entries(), meant) == null && find(read, meant) == null)
            .map(meant -> new YamlNode.Scalar(meant, key.quoted(), key.span()))
            .ifPresent(meant -> read.add(new YamlNode.Entry(meant, entry.value())));
      }
    }
    return new Section(read, place, complaints, null);
  }

  /** A section that says nothing. */
  static Section silent(Span place, Complaints complaints) {
    return new Section(List.of(), place, complaints, null);
  }

  /** Where to point when a mapping without a name of its own lacks something: at its first key. */
  static Span first(YamlNode.Mapping mapping) {
    return mapping.entries().isEmpty() ? mapping.span() : mapping.entries().get(0).key().span();
  }

  /** A mapping whose keys were checked before, or will be. */
  static Section unchecked(YamlNode.Mapping mapping, Span place, Complaints complaints) {
    return new Section(mapping.entries(), place, complaints, null);
  }

  /** The same, with another to ask where it is silent. */
  Section basedOn(Section other) {
    return new Section(entries, place, complaints, other);
  }

  /** What this section or its base says of one key, and nothing else. */
  Section only(String key) {
    return new Section(entry(key).map(List::of).orElse(List.of()), place, complaints, null);
  }

  /** The same without some keys, and based on nothing. */
  Section without(Set<String> keys) {
    List<YamlNode.Entry> rest =
        entries.stream().filter(e -> !keys.contains(e.key().text())).toList();
    return new Section(rest, place, complaints, null);
  }

  /** Where to point when something is missing. */
  Span place() {
    return place;
  }

  /** What this section itself says, base apart. */
  List<YamlNode.Entry> own() {
    return entries;
  }

  /** True when this section itself has a key, base apart. */
  boolean ownSays(String key) {
    return find(entries, key) != null;
  }

  /** True when this section or its base has a key. */
  boolean says(String key) {
    return entry(key).isPresent();
  }

  /** The key with its value, from the base where this section has none. */
  Optional<YamlNode.Entry> entry(String key) {
    YamlNode.Entry found = find(entries, key);
    if (found == null && base != null) {
      found = find(base.entries, key);
    }
    return Optional.ofNullable(found);
  }

  /** A single value. */
  Optional<YamlNode.Scalar> scalar(String key, String expected) {
    return entry(key).flatMap(e -> scalar(e.value(), key, expected));
  }

  /** A value of a list or key as a single one. */
  Optional<YamlNode.Scalar> scalar(YamlNode node, String key, String expected) {
    if (node instanceof YamlNode.Scalar scalar && !scalar.isNothing()) {
      return Optional.of(scalar);
    }
    complaints.wrongType(node, key, expected);
    return Optional.empty();
  }

  /** A whole number of a range. */
  OptionalInt integer(String key, int least, int most) {
    return entry(key).map(e -> integer(e.value(), key, least, most)).orElse(OptionalInt.empty());
  }

  /** A value of a list or key as a whole number of a range. */
  OptionalInt integer(YamlNode node, String key, int least, int most) {
    Optional<YamlNode.Scalar> scalar = scalar(node, key, WHOLE);
    if (scalar.isEmpty()) {
      return OptionalInt.empty();
    }
    OptionalInt number = whole(scalar.get().text());
    if (number.isEmpty() || number.getAsInt() < least || number.getAsInt() > most) {
      complaints.badValue(
          scalar.get().span(),
          "\"" + key + "\" cannot be " + scalar.get().span().text(),
          "write " + WHOLE + " from " + least + " to " + most + ".");
      return OptionalInt.empty();
    }
    return number;
  }

  /**
   * A number above 0, or from 0, with decimals.
   *
   * @param orZero true when it may be 0
   */
  Optional<Double> decimal(String key, double most, boolean orZero) {
    return entry(key).flatMap(e -> decimal(e.value(), key, most, orZero));
  }

  /** A value of a list or key as such a number. */
  Optional<Double> decimal(YamlNode node, String key, double most, boolean orZero) {
    Optional<YamlNode.Scalar> scalar = scalar(node, key, "a number");
    if (scalar.isEmpty()) {
      return Optional.empty();
    }
    double number = decimal(scalar.get().text());
    if (number < 0 || number > most || number == 0 && !orZero) {
      complaints.badValue(
          scalar.get().span(),
          "\"" + key + "\" cannot be " + scalar.get().span().text(),
          "write a number "
              + (orZero ? "from 0" : "above 0")
              + ", at most "
              + (long) most
              + ", such as 4 or 0.5.");
      return Optional.empty();
    }
    return Optional.of(number);
  }

  /** One of a few words. */
  <T> Optional<T> word(String key, Map<String, T> words) {
    Optional<YamlNode.Scalar> scalar = scalar(key, "a word");
    if (scalar.isPresent() && !words.containsKey(scalar.get().text())) {
      complaints.badWord(scalar.get(), key, words.keySet());
      return Optional.empty();
    }
    return scalar.map(s -> words.get(s.text()));
  }

  /** Keys and values. */
  Optional<YamlNode.Mapping> mapping(String key) {
    Optional<YamlNode.Entry> entry = entry(key);
    if (entry.isEmpty()) {
      return Optional.empty();
    }
    if (entry.get().value() instanceof YamlNode.Mapping mapping) {
      return Optional.of(mapping);
    }
    complaints.wrongType(entry.get().value(), key, "keys with values");
    return Optional.empty();
  }

  /** Keys and values of a list of keys. */
  Optional<Section> section(String key, Keys keys) {
    return mapping(key).map(m -> of(m, keys, entry(key).orElseThrow().key().span(), complaints));
  }

  /** The values of a list. */
  Optional<List<YamlNode>> items(String key, String expected) {
    Optional<YamlNode.Entry> entry = entry(key);
    if (entry.isEmpty()) {
      return Optional.empty();
    }
    if (entry.get().value() instanceof YamlNode.Sequence sequence) {
      return Optional.of(sequence.items());
    }
    complaints.wrongType(entry.get().value(), key, expected);
    return Optional.empty();
  }

  /** The single values of a list, each text once. */
  Optional<List<YamlNode.Scalar>> scalars(String key, String expected) {
    return items(key, expected).map(nodes -> scalars(nodes, key));
  }

  private List<YamlNode.Scalar> scalars(List<YamlNode> nodes, String key) {
    List<YamlNode.Scalar> scalars = new ArrayList<>();
    for (YamlNode node : nodes) {
      scalar(node, key, "a list of names")
          .ifPresent(
              scalar -> {
                Optional<YamlNode.Scalar> first =
                    scalars.stream().filter(s -> s.text().equals(scalar.text())).findFirst();
                if (first.isPresent()) {
                  complaints.duplicateName(
                      scalar.span(),
                      first.get().span(),
                      "\"" + key + "\" lists \"" + scalar.text() + "\" twice",
                      "delete one of the two.");
                } else {
                  scalars.add(scalar);
                }
              });
    }
    return scalars;
  }

  /** A text as a number with decimals; -1 when it is none. */
  static double decimal(String text) {
    return text.matches("[0-9]{1,9}(\\.[0-9]{1,9})?") ? Double.parseDouble(text) : -1;
  }

  /** A text as a whole number; empty when it is none or does not fit. */
  static OptionalInt whole(String text) {
    if (text.isEmpty() || text.length() > 9) {
      return OptionalInt.empty();
    }
    int number = 0;
    for (int i = 0; i < text.length(); i++) {
      int digit = text.charAt(i) - '0';
      if (digit < 0 || digit > 9) {
        return OptionalInt.empty();
      }
      number = number * 10 + digit;
    }
    return OptionalInt.of(number);
  }

  private static YamlNode.Entry find(List<YamlNode.Entry> entries, String key) {
    for (YamlNode.Entry entry : entries) {
      if (entry.key().text().equals(key)) {
        return entry;
      }
    }
    return null;
  }
}
