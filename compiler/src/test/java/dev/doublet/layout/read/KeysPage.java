package dev.doublet.layout.read;

import dev.doublet.layout.read.Commands.By;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/** The page of all keys of layout files, made of the table of keys. */
final class KeysPage {
  private static final String INTRODUCTION =
      """
      # The keys of a layout file

      A layout is YAML: keys with values, in any order but for signals, which stand in the order of their
      cable. What may be left out follows from the rest. Numbers are plain, without a unit. Names are yours
      to choose, or those of the rulebook. `Keys.java` beside this page is what it is made of, as are the
      schema for editors (`layout.schema.json`) and what is said of a wrong key or value; a test keeps
      them in step.

      A star marks a key that its place must have.
      """;

  private KeysPage() {}

  /** The page as it is committed. */
  static String text() {
    StringBuilder page = new StringBuilder(INTRODUCTION);
    for (Place place : Keys.PLACES) {
      page.append("\n## ").append(heading(place)).append("\n\n");
      page.append(place.help())
          .append("\n\n| key | takes | says | since |\n| --- | --- | --- | --- |\n");
      for (Key<?> key : place.keys()) {
        page.append(
            "| `%s`%s | %s | %s | %s |\n"
                .formatted(
                    key.name(),
                    key.needed() ? " *" : "",
                    takes(key.takes()),
                    key.help(),
                    key.since()));
      }
    }
    page.append("\n## What goes with what\n\nEach way of commanding has keys of its own.\n\n");
    page.append("| `by` | goes with |\n| --- | --- |\n");
    for (By by : By.values()) {
      page.append(
          "| `%s` | %s |\n"
              .formatted(
                  by.word(),
                  by.keys().stream()
                      .skip(1)
                      .map(key -> "`" + key.name() + "`")
                      .collect(Collectors.joining(", "))));
    }
    return page.toString();
  }

  private static String takes(Takes<?> takes) {
    if (takes instanceof Takes.Word<?> word) {
      return word.meanings().keySet().stream()
          .map(w -> "`" + w + "`")
          .collect(Collectors.joining(", "));
    } else if (takes instanceof Takes.Keyed keyed) {
      return "the keys of " + links(keyed.places());
    } else if (takes instanceof Takes.Each<?> each) {
      return each.words() + each(each.item());
    } else if (takes instanceof Takes.Listed<?> listed) {
      return listed.words() + each(listed.item());
    } else if (takes instanceof Takes.ByName<?> named) {
      return named.what() + each(named.value());
    } else if (takes instanceof Takes.Either either) {
      return either.sorts().stream().map(KeysPage::takes).collect(Collectors.joining("; or "));
    }
    return takes.words();
  }

  /** What each of several values is, where that tells more than the name of the whole. */
  private static String each(Takes<?> value) {
    return value instanceof Takes.Text text && text.pattern().isEmpty() ? "" : ": " + takes(value);
  }

  private static String links(List<Place> places) {
    return places.stream()
        .map(p -> "[%s](#%s)".formatted(p.noun(), anchor(p)))
        .collect(Collectors.joining(" or "));
  }

  private static String heading(Place place) {
    return Character.toUpperCase(place.noun().charAt(0)) + place.noun().substring(1);
  }

  private static String anchor(Place place) {
    return place.noun().toLowerCase(Locale.ROOT).replace(' ', '-');
  }
}
