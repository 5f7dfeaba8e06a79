package dev.doublet.diff;

import dev.doublet.diagnostic.Words;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Changes as text: worst first, and under each what was and what is. */
public final class ChangesText {
  /** As many of one sort as people look at one by one. */
  private static final int MOST_ALIKE = 30;

  private ChangesText() {}

  /** The whole text, with a closing line. */
  public static String of(Changes changes) {
    StringBuilder text = new StringBuilder();
    for (Consequence consequence : Consequence.values()) {
      List<Event> events = changes.of(consequence);
      if (!events.isEmpty()) {
        text.append(capital(consequence.words())).append("\n\n");
        text.append(listed(events));
      }
    }
    return text.append(line(changes)).append('\n').toString();
  }

  /** "3 files compared: 2 changes, 1 by which a crew may do more." */
  public static String line(Changes changes) {
    String files = Words.count(changes.files().size(), "file") + " compared: ";
    if (changes.events().isEmpty()) {
      return files + "nothing changed in meaning.";
    }
    List<String> counts = new ArrayList<>();
    for (Consequence consequence : Consequence.values()) {
      int count = changes.of(consequence).size();
      if (count > 0) {
        counts.add(count + " " + consequence.words());
      }
    }
    return files
        + Words.count(changes.events().size(), "change")
        + " ("
        + String.join(", ", counts)
        + ").";
  }

  /** The same with a capital letter. */
  public static String capital(String words) {
    return Character.toUpperCase(words.charAt(0)) + words.substring(1);
  }

  private static String listed(List<Event> events) {
    StringBuilder text = new StringBuilder();
    Map<String, Integer> counts = new TreeMap<>();
    for (Event event : events) {
      if (counts.merge(event.sort().word(), 1, Integer::sum) <= MOST_ALIKE) {
        text.append(drawn(event));
      }
    }
    counts.forEach(
        (sort, count) -> {
          if (count > MOST_ALIKE) {
            text.append(Words.say("  %,d more of %s are not shown.\n\n", count - MOST_ALIKE, sort));
          }
        });
    return text.toString();
  }

  private static String drawn(Event event) {
    StringBuilder text = new StringBuilder();
    text.append("  ").append(Visible.line(event.file())).append(": ");
    text.append(Visible.line(Visible.brief(event.sentence()))).append('\n');
    row(text, "was", event.before());
    row(text, "is", event.after());
    row(text, "note", event.how());
    return text.append("    [").append(event.sort().word()).append("]\n\n").toString();
  }

  private static void row(StringBuilder text, String what, String words) {
    if (!words.isEmpty()) {
      text.append("    ")
          .append(what)
          .append(": ")
          .append(Visible.line(Visible.brief(words)))
          .append('\n');
    }
  }
}
