package dev.doublet.bench;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/** Writes a large rulebook of no railway, for timing. */
public final class GeneratedBook {
  private GeneratedBook() {}

  /** A book of so many aspects, up to 2,000, each of another picture on one form of four heads. */
  public static String of(int aspects) {
    List<String> looks =
        List.of("red", "yellow", "green", "lunar", "flashing red", "flashing yellow", "dark");
    List<String> speeds = List.of("normal", "limited", "medium", "slow", "restricted");
    List<String> pictures = new ArrayList<>();
    for (String a : looks) {
      for (String b : looks) {
        for (String c : looks) {
          for (String d : looks) {
            pictures.add(String.join(" over ", a, b, c, d));
          }
        }
      }
    }
    pictures.removeAll(
        List.of("red over red over red over red", "dark over dark over dark over dark"));
    Collections.shuffle(pictures, new Random(7));
    StringBuilder book =
        new StringBuilder(
            """
            rulebook "Large" edition 1
            speeds in mph { normal 60 limited 45 medium 30 slow 15 restricted 15 on sight }
            colours { red yellow green lunar }
            rhythms { flashing 50 per minute }
            head searchlight { lamp main shows red, yellow, green, lunar }
            form four { a, b, c, d }
            imperfect signals read as most restrictive
            aspect "Stop" { rule 1 number 0 allows stop on four show red over red over red over red }
            """);
    for (int i = 1; i < aspects; i++) {
      book.append("aspect \"Aspect ").append(i).append("\" {\n  rule ").append(i + 1);
      book.append("\n  allows ").append(speeds.get(i % 5)).append(" then ");
      book.append(speeds.get(i / 5 % 5)).append("\n  on four show ");
      book.append(pictures.get(i)).append("\n}\n");
    }
    return book.toString();
  }

  /**
   * The same on a dozen forms that bear a head of nine numbers above, usually dark.
   *
   * @param families how many of the aspects are of many numbers
   */
  public static String withNumbers(int aspects, int families) {
    String forms =
        IntStream.rangeClosed(1, 12).mapToObj(i -> "four-" + i).collect(Collectors.joining(", "));
    StringBuilder declared = new StringBuilder("numbers times 10 { 3 4 5 6 7 8 9 10 12 }\n");
    declared.append("head speed shows numbers in lunar\n");
    for (String form : forms.split(", ")) {
      declared.append("form ").append(form).append(" { speed usually dark, a, b, c, d }\n");
    }
    String book =
        of(aspects)
            .replace("form four { a, b, c, d }\n", declared)
            .replace("mph", "km/h")
            .replace(" on four show ", " on " + forms + " show ");
    for (int i = 1; i <= families; i++) {
      book =
          book.replaceFirst("\"Aspect " + i + "\"", "\"Aspect " + i + " at {n}\"")
              .replaceFirst("(at \\{n}\" [^}]*?show )(?!\\{n} over)", "$1{n} over ");
    }
    return book;
  }
}
