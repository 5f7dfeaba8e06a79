package dev.doublet.layout.read;

import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * One mapping of a layout file with its values read. A value that is written wrongly is complained
 * of once, and then counts as not read. What this section does not say, the section it is based on
 * may.
 */
final class Section {
  private final Map<String, Said> said;
  private final boolean whole;
  private final Span span;
  private final Complaints complaints;
  private final Optional<YamlNode.Mapping> mapping;
  private final Section base;

  private Section(
      Map<String, Said> said,
      boolean whole,
      Span span,
      Complaints complaints,
      Optional<YamlNode.Mapping> mapping,
      Section base) {
    this.said = said;
    this.whole = whole;
    this.span = span;
    this.mapping = mapping;
    this.complaints = complaints;
    this.base = base;
  }

  /** What a key says: as written, and as read when it could be. */
  private record Said(YamlNode.Entry entry, Optional<?> value) {}

  /**
   * A mapping with the keys of a place. A misspelt key is complained of and then read as the one
   * that was meant, so that nobody is told as well that this one is missing.
   *
   * @param span where to point when something is missing
   * @param who what to call it then: "controller "west"", "this signal"
   */
  private static Section of(
      YamlNode.Mapping mapping, Place place, Span span, String who, Complaints complaints) {
    Map<String, Said> said = new LinkedHashMap<>();
    List<YamlNode.Entry> meant = new ArrayList<>();
    for (YamlNode.Entry entry : mapping.entries()) {
      YamlNode.Scalar key = entry.key();
      if (place.key(key.text()).isPresent()) {
        said.put(key.text(), new Said(entry, Optional.empty()));
      } else {
        complaints
            .unknownKey(key, place, mapping)
            .map(word -> new YamlNode.Scalar(word, key.quoted(), key.span()))
            .ifPresent(word -> meant.add(new YamlNode.Entry(word, entry.value())));
      }
    }
    meant.forEach(e -> said.putIfAbsent(e.key().text(), new Said(e, Optional.empty())));
    said.replaceAll((key, s) -> read(place.key(key).orElseThrow(), s.entry(), complaints));
    List<Key<?>> missing = place.keys().stream().filter(k -> isMissing(k, said.keySet())).toList();
    boolean whole = mapping.isWhole();
    if (!whole) {
      complaints.lose();
    }
    if (whole && !missing.isEmpty()) {
      complaints.missingKeys(span, who, missing);
    }
    return new Section(
        said, whole && missing.isEmpty(), span, complaints, Optional.of(mapping), null);
  }

  private static boolean isMissing(Key<?> key, Set<String> said) {
    boolean wanted = key.needed() || !key.instead().isEmpty() && !said.contains(key.instead());
    return wanted && !said.contains(key.name());
  }

  private static Said read(Key<?> key, YamlNode.Entry entry, Complaints complaints) {
    return new Said(entry, key.takes().read(entry.value(), entry.key(), complaints));
  }

  /** What stands under a name: controller "west". */
  static Section named(
      YamlNode.Scalar name, YamlNode.Mapping mapping, Place place, Complaints complaints) {
    String who = place.name() + " \"" + name.text() + '"';
    return of(mapping, place, name.span(), who, complaints);
  }

  /** What stands under a key that says what it is, or in a file as a whole. */
  static Section nameless(YamlNode.Mapping mapping, Place place, Span span, Complaints complaints) {
    return of(mapping, place, span, "this " + place.name(), complaints);
  }

  /** What stands in a list; it is pointed at by its name, or else by its first key. */
  static Section listed(YamlNode.Mapping mapping, Place place, Complaints complaints) {
    Span first = first(mapping);
    Section section = nameless(mapping, place, first, complaints);
    return section
        .read(Keys.NAME)
        .map(
            name ->
                new Section(
                    section.said, section.whole, name.span(), complaints, section.mapping, null))
        .orElse(section);
  }

  /** A section that says nothing. */
  static Section silent(Span span, Complaints complaints) {
    return new Section(Map.of(), true, span, complaints, Optional.empty(), null);
  }

  /** Where to point when a mapping without a name of its own lacks something: at its first key. */
  static Span first(YamlNode.Mapping mapping) {
    return mapping.entries().isEmpty() ? mapping.span() : mapping.entries().get(0).key().span();
  }

  /** What a mapping says of one key, before it is clear what else it may say. */
  static Optional<YamlNode.Entry> peek(YamlNode.Mapping mapping, Key<?> key) {
    return mapping.entries().stream().filter(e -> e.key().text().equals(key.name())).findFirst();
  }

  /** The same, with another to ask where it is silent. */
  Section basedOn(Section other) {
    return new Section(said, whole, span, complaints, mapping, other);
  }

  /** What this section or its base says of one key, and nothing else. */
  Section only(Key<?> key) {
    Map<String, Said> one = find(key).map(s -> Map.of(key.name(), s)).orElse(Map.of());
    return new Section(one, whole, span, complaints, mapping, null);
  }

  /** The same without some keys, and based on nothing. */
  Section without(Set<Key<?>> keys) {
    Map<String, Said> rest = new LinkedHashMap<>(said);
    keys.forEach(key -> rest.remove(key.name()));
    return new Section(rest, whole, span, complaints, mapping, null);
  }

  /** The same where a key that is said has another value. */
  <T> Section saying(Key<T> key, T value) {
    Map<String, Said> other = new LinkedHashMap<>(said);
    other.computeIfPresent(key.name(), (name, s) -> new Said(s.entry(), Optional.of(value)));
    return new Section(other, whole, span, complaints, mapping, base);
  }

  /** The mapping that was read, base apart; empty for a section that says nothing. */
  Optional<YamlNode.Mapping> mapping() {
    return mapping;
  }

  /** Of this section and its bases, the one that has a key which is said. */
  Section holder(Key<?> key) {
    return ownSays(key) ? this : base.holder(key);
  }

  /** Where to point when something is missing. */
  Span span() {
    return span;
  }

  /** What this section itself says, base apart. */
  List<YamlNode.Entry> own() {
    return said.values().stream().map(Said::entry).toList();
  }

  /** True when this section itself has a key, base apart. */
  boolean ownSays(Key<?> key) {
    return said.containsKey(key.name());
  }

  /** True when this section or its base has a key. */
  boolean says(Key<?> key) {
    return find(key).isPresent();
  }

  /** True when it has a key, or may have it in a part that could not be read. */
  boolean maySay(Key<?> key) {
    return says(key) || !isWhole();
  }

  /** True when every key that must be there is, and no part of it was unreadable. */
  boolean isWhole() {
    return whole && (base == null || base.isWhole());
  }

  /** True when nothing of it is missing, unreadable or wrong. */
  boolean isRead() {
    return isReadBut(Set.of());
  }

  /** The same, whatever is said of some keys. */
  boolean isReadBut(Set<? extends Key<?>> apart) {
    Set<String> names = apart.stream().map(Key::name).collect(Collectors.toSet());
    return isWhole() && isReadBut(names, Set.of());
  }

  private boolean isReadBut(Set<String> apart, Set<String> overridden) {
    boolean read =
        said.entrySet().stream()
            .filter(s -> !apart.contains(s.getKey()) && !overridden.contains(s.getKey()))
            .allMatch(s -> s.getValue().value().isPresent());
    return read && (base == null || base.isReadBut(apart, said.keySet()));
  }

  /** True when the keys under a key were all read. */
  boolean holdsWhole(Key<?> key) {
    return !(entry(key).orElseThrow().value() instanceof YamlNode.Mapping mapping)
        || mapping.isWhole();
  }

  /** The key with its value, from the base where this section has none. */
  Optional<YamlNode.Entry> entry(Key<?> key) {
    return find(key).map(Said::entry);
  }

  /** Where the value of a key that is said stands. */
  Span at(Key<?> key) {
    return entry(key).orElseThrow().value().span();
  }

  /** What a key says; empty when it is not said, or says something wrong. */
  @SuppressWarnings("unchecked") // what a key says was read by the key
  <T> Optional<T> read(Key<T> key) {
    return find(key).flatMap(s -> (Optional<T>) s.value());
  }

  /** The keys and values that a key has. */
  Optional<Section> read(Key<YamlNode.Mapping> key, Place place) {
    return read(key)
        .map(m -> nameless(m, place, entry(key).orElseThrow().key().span(), complaints));
  }

  private Optional<Said> find(Key<?> key) {
    Said own = said.get(key.name());
    if (own == null && base != null) {
      return base.find(key);
    }
    return Optional.ofNullable(own);
  }
}
