package dev.doublet.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Writes a large rulebook and layout of no railway, for timing: 24 aspects, 8 kinds, 50 signals a
 * controller, 2,000 signals a bus.
 *
 * <p>Run as {@code java … GeneratedLayout FOLDER SIGNALS}.
 */
public final class GeneratedLayout {
  private static final int ASPECTS = 24;
  private static final int SIGNALS_A_CONTROLLER = 50;
  private static final int SIGNALS_A_BUS = 2_000;
  private static final List<String> LOOKS =
      List.of("green", "yellow", "lunar", "flashing green", "flashing yellow");

  private GeneratedLayout() {}

  /** Writes {@code book.aspects} and {@code layout.yaml} into a folder. */
  public static void main(String[] arguments) throws IOException {
    Path folder = Path.of(arguments[0]);
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("book.aspects"), book());
    Files.writeString(folder.resolve("layout.yaml"), layout(Integer.parseInt(arguments[1])));
  }

  /** A rulebook with 24 aspects on forms of one to three heads. */
  public static String book() {
    StringBuilder book = new StringBuilder("rulebook \"Generated\" edition 1\nspeeds in mph {");
    for (int i = 1; i < ASPECTS; i++) {
      book.append(" s").append(i).append(' ').append(i * 5);
    }
    book.append(" }\ncolours { red green yellow lunar }\nrhythms { flashing 60 per minute }\n");
    book.append("head searchlight { lamp main shows red, green, yellow, lunar }\n");
    book.append("head stack { lamp upper shows green  lamp middle shows yellow  ");
    book.append("lamp lower shows red  lamp side shows lunar }\n");
    book.append("imperfect signals read as most restrictive\n");
    book.append("cover die-out because \"a drill of no railway\"\n");
    book.append("form two { top, bottom }\nform three { top, middle, bottom }\n");
    book.append("aspect \"Stop\" { number 0 allows stop on two show red over red ");
    book.append("on three show red over red over red }\n");
    List<String> pairs = new ArrayList<>();
    for (String top : LOOKS) {
      for (String bottom : LOOKS) {
        pairs.add(top + " over " + bottom);
      }
    }
    for (int i = 1; i < ASPECTS; i++) {
      book.append("aspect \"Aspect ").append(i).append("\" { number ").append(i);
      book.append(" allows s").append(i).append(" then stop on two show ").append(pairs.get(i));
      book.append(" on three show ").append(pairs.get(i)).append(" over red }\n");
    }
    return book.toString();
  }

  /** A layout of so many signals. */
  public static String layout(int signals) {
    StringBuilder yaml = new StringBuilder();
    yaml.append("layout: Generated\nrulebook: book.aspects\notherwise: most-restrictive\nbuses:\n");
    for (int bus = 0; bus * SIGNALS_A_BUS < signals; bus++) {
      yaml.append("  bus").append(bus).append(": {speaks: dcc, aspect-bits: 8}\n");
    }
    yaml.append("kinds:\n");
    for (int kind = 0; kind < 8; kind++) {
      boolean three = kind % 2 == 1;
      String head = kind / 2 % 2 == 0 ? "searchlight" : "stack";
      yaml.append("  k").append(kind).append(": {form: ").append(three ? "three" : "two");
      yaml.append(", heads: [").append(head).append(", ").append(head);
      yaml.append(three ? ", " + head : "").append("], by: aspect-number, otherwise: ");
      yaml.append(kind < 4 ? "most-restrictive" : "keep").append("}\n");
    }
    yaml.append("controllers:\n");
    for (int signal = 0; signal < signals; signal++) {
      int controller = signal / SIGNALS_A_CONTROLLER;
      if (signal % SIGNALS_A_CONTROLLER == 0) {
        yaml.append("  c").append(controller);
        yaml.append(":\n    flash: 28672\n    ram: 4096\n    chains:\n      main:\n");
        yaml.append("        signals:\n");
      }
      yaml.append("        - {name: S").append(signal).append(", kind: k");
      yaml.append(signal / 10 % 8).append(", bus: bus").append(signal / SIGNALS_A_BUS);
      yaml.append(", address: ").append(signal % SIGNALS_A_BUS + 1).append("}\n");
    }
    return yaml.toString();
  }
}
