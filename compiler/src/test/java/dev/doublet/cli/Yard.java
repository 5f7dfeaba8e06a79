package dev.doublet.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** A small layout to try verbs on. */
final class Yard {
  static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal 60 }
      colours { red yellow green }
      head searchlight { lamp main shows red, yellow, green }
      form one-head { top }
      aspect "Clear"    { number 2  allows normal then normal  on one-head show green }
      aspect "Approach" { number 1  allows normal then stop    on one-head show yellow }
      aspect "Stop"     { number 0  allows stop                on one-head show red }
      cover die-out because "every lamp is tried in each colour before a session"
      """;
  static final String LAYOUT =
      """
      layout: Coalpit Yard
      rulebook: book.aspects
      otherwise: most-restrictive
      controllers:
        west:
          flash: 28672
          ram: 1536
          chains:
            main:
              signals:
              - {name: W1, form: one-head, heads: [searchlight], by: aspect-number}
              - {name: W2}
      """;

  private Yard() {}

  /** Writes the layout and its rulebook into a folder, which is made when it is missing. */
  static Session in(Path folder) throws IOException {
    Files.createDirectories(folder);
    Files.writeString(folder.resolve("book.aspects"), BOOK);
    Files.writeString(folder.resolve("layout.yaml"), LAYOUT);
    return new Session(folder);
  }

  /** Changes the layout in a folder so that its table becomes another. */
  static void renamed(Path folder) throws IOException {
    Files.writeString(
        folder.resolve("layout.yaml"), LAYOUT.replace("{name: W2}", "{name: Renamed, address: 9}"));
  }
}
