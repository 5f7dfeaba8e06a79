package dev.doublet.cli;

import dev.doublet.Compiler;
import dev.doublet.facts.CheckOptions;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;

/**
 * Has a second processor load and link the compiler's classes while the first still reads files: a
 * cold start is mostly that. It checks a layout of one signal and forgets what came of it. Of use
 * to {@code check}; {@code build} was measured to gain nothing, and {@code explain} to lose. On
 * Java 25, whose cache holds classes that are linked, {@code check} was measured to gain nothing
 * either.
 */
final class HeadStart {
  private static final int LINKED_AHEAD = 25;

  private static final String BOOK =
      """
      rulebook "Head start" edition 1
      speeds in mph { normal 60  slow 15 on sight }
      colours { red yellow green }
      rhythms { flashing 50 per minute }
      head lamp-head { lamp main shows red, yellow, green }
      form one { top }
      imperfect signals read as most restrictive
      cover die-out because "of a drill"
      aspect "Stop"     { rule 1  number 0  allows stop                on one show red }
      aspect "Approach" { rule 2  number 1  allows normal then stop    on one show yellow or flashing yellow }
      aspect "Clear"    { rule 3  number 2  allows normal then normal  on one show green }
      """;
  private static final String LAYOUT =
      """
      layout: Head start
      rulebook: book.aspects
      otherwise: most-restrictive
      kinds:
        k: {form: one, heads: [lamp-head], by: aspect-number}
      controllers:
        c:
          flash: 1000
          ram: 1000
          chains:
            m:
              supply: {volts: 5, amps: 1}
              cable: {awg: 24, metres: 1}
              signals: [{name: S1}, {name: S2}]
      """;

  private HeadStart() {}

  /** Begins loading where that gains time, and returns at once. */
  static void begin() {
    if (Runtime.version().feature() >= LINKED_AHEAD) {
      return;
    }
    Thread loading = new Thread(HeadStart::load, "head start");
    loading.setDaemon(true);
    loading.start();
  }

  private static void load() {
    SourceReader reader = path -> new SourceFile(path, path.endsWith("yaml") ? LAYOUT : BOOK);
    Compiler.checkLayout("layout.yaml", reader, CheckOptions.FINDINGS);
  }
}
