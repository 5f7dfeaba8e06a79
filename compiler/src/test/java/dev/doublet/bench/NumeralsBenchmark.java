package dev.doublet.bench;

import dev.doublet.Compiler;
import dev.doublet.facts.CheckOptions;
import dev.doublet.source.SourceFile;
import java.lang.management.ManagementFactory;
import java.util.Locale;

/** Times the check of 500 aspects on a dozen forms that bear a head of nine numbers. */
public final class NumeralsBenchmark {
  private static final int RUNS = 12;

  private NumeralsBenchmark() {}

  /** Prints the milliseconds of processor time of each run. */
  public static void main(String[] arguments) {
    for (int families : new int[] {0, 10, 50}) {
      String book = GeneratedBook.withNumbers(500, families);
      System.out.print(families + " of many numbers:");
      for (int run = 0; run < RUNS; run++) {
        long start = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        int found =
            Compiler.checkRulebook(
                    "book.aspects",
                    path -> new SourceFile("book.aspects", book),
                    CheckOptions.FINDINGS)
                .diagnostics()
                .size();
        long spent = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - start;
        System.out.print(String.format(Locale.ROOT, " %d ms (%d)", spent / 1_000_000, found));
      }
      System.out.println();
    }
  }
}
