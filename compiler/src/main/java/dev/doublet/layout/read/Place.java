package dev.doublet.layout.read;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** A place of a layout file that has keys: the layout itself, a chain, a signal. */
final class Place {
  private final String noun;
  private final String help;
  private final Map<String, Key<?>> keys = new LinkedHashMap<>();

  /**
   * Takes its keys, in the order to list them.
   *
   * @param noun what it is, with its article: "a signal"
   * @param help what its keys say together
   */
  Place(String noun, String help, List<Key<?>> keys) {
    this.noun = noun;
    this.help = help;
    keys.forEach(key -> this.keys.put(key.name(), key));
  }

  /** What it is, with its article: "a signal". */
  String noun() {
    return noun;
  }

  /** What it is, without an article: "signal". */
  String name() {
    return noun.substring(noun.indexOf(' ') + 1);
  }

  /** What its keys say together. */
  String help() {
    return help;
  }

  /** Its keys, in the order to list them. */
  List<Key<?>> keys() {
    return List.copyOf(keys.values());
  }

  /** The names of its keys, in the same order. */
  Set<String> words() {
    return keys.keySet();
  }

  /** A key by its name. */
  Optional<Key<?>> key(String name) {
    return Optional.ofNullable(keys.get(name));
  }
}
