package dev.doublet.layout.read;

import dev.doublet.layout.read.Takes.ByName;
import dev.doublet.layout.read.Takes.Each;
import dev.doublet.layout.read.Takes.Either;
import dev.doublet.layout.read.Takes.Keyed;
import dev.doublet.layout.read.Takes.Listed;
import dev.doublet.layout.read.Takes.Text;
import dev.doublet.layout.read.Takes.Word;
import dev.doublet.syntax.YamlCursor;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * What may be written at a place of a layout file, from the one list of keys.
 *
 * @param keys keys that may stand there, in the order to list them
 * @param words words that may stand there
 * @param names what names may stand there, in the words of the list of keys: "the name of a form"
 */
public record KeyGuide(List<Hint> keys, List<String> words, List<String> names) {

  /** Copies the lists. */
  public KeyGuide {
    keys = List.copyOf(keys);
    words = List.copyOf(words);
    names = List.copyOf(names);
  }

  /**
   * A key.
   *
   * @param name as written
   * @param help what it says
   * @param takes what its value may be
   * @param needed true when its place must have it
   */
  public record Hint(String name, String help, String takes, boolean needed) {}

  /** What may be written at a place of a layout. */
  public static KeyGuide at(YamlCursor cursor) {
    List<Takes<?>> here = takes(cursor.steps());
    Map<String, Hint> keys = new LinkedHashMap<>();
    List<String> words = new ArrayList<>();
    List<String> names = new ArrayList<>();
    for (Takes<?> sort : here) {
      if (sort instanceof Keyed keyed) {
        keyed.places().stream()
            .flatMap(place -> place.keys().stream())
            .forEach(key -> keys.putIfAbsent(key.name(), hint(key)));
      } else if (sort instanceof Word<?> word) {
        words.addAll(word.meanings().keySet());
      } else if (sort instanceof Text text) {
        names.add(text.words());
      } else if (sort instanceof ByName<?> named && named.names() instanceof Text text) {
        names.add(text.words());
      }
    }
    return new KeyGuide(List.copyOf(keys.values()), words, names);
  }

  /** The key that some steps lead to. */
  public static Optional<Hint> key(List<String> steps) {
    if (steps.isEmpty()) {
      return Optional.empty();
    }
    String last = steps.get(steps.size() - 1);
    return takes(steps.subList(0, steps.size() - 1)).stream()
        .flatMap(sort -> sort instanceof Keyed keyed ? keyed.places().stream() : Stream.of())
        .flatMap(place -> place.key(last).stream())
        .map(KeyGuide::hint)
        .findFirst();
  }

  private static Hint hint(Key<?> key) {
    return new Hint(key.name(), key.help(), key.takes().words(), key.needed());
  }

  /** All that a value may be at the end of some steps. */
  private static List<Takes<?>> takes(List<String> steps) {
    List<Takes<?>> here = List.of(new Keyed(Keys.LAYOUT));
    for (String step : steps) {
      List<Takes<?>> next = new ArrayList<>();
      here.forEach(sort -> next.addAll(inside(sort, step)));
      here = next;
    }
    return here.stream().flatMap(KeyGuide::sorts).toList();
  }

  private static Stream<Takes<?>> sorts(Takes<?> takes) {
    return takes instanceof Either either
        ? either.sorts().stream().flatMap(KeyGuide::sorts)
        : Stream.of(takes);
  }

  private static List<Takes<?>> inside(Takes<?> takes, String step) {
    List<Takes<?>> inside = new ArrayList<>();
    for (Takes<?> sort : sorts(takes).toList()) {
      if (step.equals(YamlCursor.ITEM)) {
        if (sort instanceof Listed<?> list) {
          inside.add(list.item());
        } else if (sort instanceof Each<?> list) {
          inside.add(list.item());
        }
      } else if (sort instanceof ByName<?> named) {
        inside.add(named.value());
      } else if (sort instanceof Keyed keyed) {
        keyed.places().forEach(p -> p.key(step).ifPresent(key -> inside.add(key.takes())));
      }
    }
    return inside;
  }
}
