package dev.doublet.layout.read;

import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.BiFunction;

/**
 * Things that a layout declares by name. One whose declaration has a mistake is known by name and
 * no further, so that whoever uses it is not blamed.
 */
final class Declared<T> {
  private final String what;
  private final Map<String, Optional<T>> things = new LinkedHashMap<>();
  private final boolean whole;

  private Declared(String what, boolean whole) {
    this.what = what;
    this.whole = whole;
  }

  /**
   * All that stand under a key of the layout.
   *
   * @param what what each is: "bus"
   * @param thing reads one; what it makes counts only when nothing of it was lost
   */
  static <T> Declared<T> read(
      Section layout,
      Complaints complaints,
      Key<List<Takes.Named<YamlNode.Mapping>>> key,
      String what,
      BiFunction<YamlNode.Scalar, YamlNode.Mapping, Optional<T>> thing) {
    Optional<List<Takes.Named<YamlNode.Mapping>>> listed = layout.read(key);
    boolean whole = listed.isPresent() ? layout.holdsWhole(key) : !layout.maySay(key);
    Declared<T> declared = new Declared<>(what, whole);
    for (Takes.Named<YamlNode.Mapping> named : listed.orElse(List.of())) {
      declared.things.put(
          named.name().text(),
          complaints.lossless(() -> named.value().flatMap(m -> thing.apply(named.name(), m))));
    }
    return declared;
  }

  /** A single thing that is there where a layout declares none. */
  static <T> Declared<T> builtIn(String what, String name, T thing) {
    Declared<T> declared = new Declared<>(what, true);
    declared.things.put(name, Optional.of(thing));
    return declared;
  }

  /** Those without a mistake, in the order declared. */
  List<T> sound() {
    List<T> sound = new ArrayList<>();
    things.values().forEach(thing -> thing.ifPresent(sound::add));
    return sound;
  }

  /** What is known of each, in the order declared. */
  List<Optional<T>> all() {
    return List.copyOf(things.values());
  }

  /** False when some could not be read at all, not even their names. */
  boolean isWhole() {
    return whole;
  }

  /** Every name, in the order declared. */
  Set<String> names() {
    return things.keySet();
  }

  /** The thing of a name. A name that nothing can have is complained of. */
  Optional<T> find(YamlNode.Scalar name, Complaints complaints) {
    Optional<T> thing = things.get(name.text());
    if (thing == null && whole) {
      complaints.unknownName(name, what, names());
    }
    return thing == null ? Optional.empty() : thing;
  }
}
