package dev.doublet;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/**
 * Layout files with every way of commanding, in every style that YAML has for them and with
 * comments wherever one may stand.
 */
final class RandomYard {
  static final String BOOK =
      """
      rulebook "Brackwater & Northern" edition 3
      speeds in mph { normal 60  medium 30  slow 15 }
      colours { red yellow green lunar }
      rhythms { flashing 50 per minute }
      head searchlight { lamp main shows red, yellow, green, lunar }
      head plain { lamp main shows red, yellow, green }
      form one-head { top }
      form two-head { top, bottom }
      plate number
      cover die-out because "of the drill"
      aspect "Stop" { number 0  allows stop  on one-head show red  on two-head show red over red }
      aspect "Restricting" { number 2  allows slow then stop
        on one-head show lunar  on two-head show lunar over red }
      aspect "Stop, then" { number 1  allows stop, then slow  on one-head with number plate show red }
      aspect "Approach" { number 5  allows medium then stop
        on one-head show yellow  on two-head show yellow over red }
      aspect "Medium #1" { number 6  allows medium then medium
        on one-head show flashing yellow  on two-head show red over green }
      aspect "Clear" { number 9  allows normal then normal
        on one-head show green  on two-head show green over red }
      """;

  /** The same without numbers, so that values go by the alphabet. */
  static final String UNNUMBERED = BOOK.replaceAll("number [0-9]  ", "");

  private static final List<String> NUMBERED =
      List.of("aspect-number", "event, address: 700", "topic, payload: number", "event");

  private final Random random;
  private final boolean numbers;
  private final StringBuilder text = new StringBuilder();
  private int address;

  private RandomYard(Random random, boolean numbers) {
    this.random = random;
    this.numbers = numbers;
  }

  /**
   * One layout.
   *
   * @param numbers true when aspects have numbers to be called up by
   */
  static String of(Random random, boolean numbers) {
    return new RandomYard(random, numbers).layout();
  }

  private String layout() {
    line(0, "# The yard, as it was wired");
    line(0, "layout: Yard" + comment());
    line(0, "rulebook: book.aspects" + comment());
    line(0, "otherwise: most-restrictive");
    if (random.nextInt(4) == 0) {
      line(0, "numbering: automatic" + comment());
    }
    line(
        0,
        "buses: {dcc: {speaks: dcc, aspect-bits: 8}, house: {speaks: mqtt}, can: {speaks: openlcb}}");
    List<String> kinds = new ArrayList<>();
    line(0, "kinds:" + comment());
    for (int i = 0; i <= random.nextInt(4); i++) {
      kinds.add("k" + i);
      keys(2, "k" + i + ":", built(random.nextInt(4) > 0));
    }
    line(0, "controllers:");
    line(2, "west:");
    line(4, "flash: 60000");
    line(4, "ram: 8000");
    line(4, "chains:" + comment());
    for (int chain = 0; chain <= random.nextInt(2); chain++) {
      line(6, "c" + chain + ":" + comment());
      line(8, "signals:" + comment());
      boolean first = true;
      for (int i = 0; i <= random.nextInt(7); i++) {
        signal("S" + chain + i, kinds, first);
        first = false;
      }
    }
    String all = text.toString();
    return random.nextInt(5) == 0 ? all.replace("\n", "\r\n") : all;
  }

  private void signal(String name, List<String> kinds, boolean first) {
    List<String> keys = new ArrayList<>(List.of("name: " + name));
    int sort = random.nextInt(6);
    if (sort == 0) {
      keys.addAll(built(true));
    } else if (sort < 4 || first) {
      keys.add("kind: " + kinds.get(random.nextInt(kinds.size())));
    }
    if (random.nextInt(5) == 0 && sort < 4) {
      keys.add("aspects: [Stop, Clear, Approach]");
    }
    if (random.nextInt(6) == 0) {
      keys.add("plates: [number]");
    }
    if (random.nextInt(4) == 0) {
      address += 20 + random.nextInt(30);
      keys.add("address: " + address);
    }
    keys(8, "-", keys);
  }

  private List<String> built(boolean commanded) {
    List<String> keys = new ArrayList<>();
    if (random.nextInt(5) == 0) {
      keys.add("form: two-head");
      keys.add("heads: [" + head() + ", " + head() + "]");
      return keys;
    }
    boolean two = random.nextInt(3) == 0;
    keys.add(two ? "form: two-head" : "form: one-head");
    keys.add("heads: [" + (two ? make() + ", " : "") + make() + "]");
    if (commanded) {
      keys.add("by: " + by());
    } else {
      keys.add("by: binary-coded");
    }
    return keys.stream()
        .flatMap(k -> List.of(k.split(", (?=payload|address|bits|low)")).stream())
        .toList();
  }

  private String make() {
    return random.nextBoolean() ? "searchlight" : "plain";
  }

  private String head() {
    String way = List.of("aspect-number", "binary-coded", "one-per-output").get(random.nextInt(3));
    return "{type: plain, shows: [red, flashing yellow, green], by: " + way + "}";
  }

  private String by() {
    int sort = random.nextInt(numbers ? 7 : 4);
    return switch (sort) {
      case 0 -> "binary-coded";
      case 1 -> "one-per-output";
      case 2 -> "topic";
      case 3 -> "binary-coded, bits: 4, low-bit: last";
      default -> NUMBERED.get(random.nextInt(NUMBERED.size()));
    };
  }

  /** Keys in braces on one line, in braces on several, or a line each. */
  private void keys(int indent, String lead, List<String> keys) {
    boolean item = lead.equals("-");
    switch (random.nextInt(3)) {
      case 0 -> line(indent, lead + " {" + String.join(", ", keys) + "}" + comment());
      case 1 -> {
        line(indent, lead + " {" + keys.get(0) + "," + comment());
        for (int i = 1; i < keys.size(); i++) {
          line(indent + 4, keys.get(i) + "," + comment());
        }
        line(indent + 2, random.nextBoolean() ? "}" : "# the end\n" + " ".repeat(indent + 2) + "}");
      }
      default -> {
        if (!item) {
          line(indent, lead + comment());
        }
        for (int i = 0; i < keys.size(); i++) {
          if (random.nextInt(6) == 0 && i > 0) {
            line(indent, "# between");
          }
          String start = item && i == 0 ? "- " : "  ";
          line(indent, start + keys.get(i) + comment());
        }
      }
    }
  }

  private String comment() {
    return random.nextInt(4) == 0 ? "  # " + random.nextInt(100) : "";
  }

  private void line(int indent, String words) {
    text.append(" ".repeat(indent)).append(words).append('\n');
  }
}
