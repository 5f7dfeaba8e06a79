package dev.doublet.golden;

import dev.doublet.source.SourceFile;
import java.util.Map;

/**
 * A layout, {@code layout.yaml}, with two words misspelt that have one sure mend each: that of the
 * key helps, and that of the aspect would list one twice.
 */
public final class Misspelt {
  private static final Map<String, String> FILES =
      Map.of(
          "layout.yaml",
          """
          layout: Yard
          rulebook: book.aspects
          scael: N
          otherwise: most-restrictive
          controllers:
            west:
              chains:
                main:
                  signals:
                  - {name: W1, form: one-head, heads: [main], by: aspect-number, aspects: [Stop, Clear, Claer]}
          """,
          "book.aspects",
          """
          rulebook "Yard"
          speeds in mph { normal 60 }
          colours { red green }
          head main { lamp main shows red, green }
          form one-head { top }
          aspect "Clear" { number 1  allows normal then normal  on one-head show green }
          aspect "Stop"  { number 0  allows stop  on one-head show red }
          """);

  private Misspelt() {}

  /** Its files by name. */
  public static SourceFile read(String path) {
    return new SourceFile(path, FILES.get(path));
  }
}
