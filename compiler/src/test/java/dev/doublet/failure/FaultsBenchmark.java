package dev.doublet.failure;

import dev.doublet.bench.GeneratedLayout;
import dev.doublet.check.failure.FalseProceed;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import java.lang.management.ManagementFactory;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;

/** Times the faults of 10,000 signals of 40 kinds, one at a time and two at once. */
public final class FaultsBenchmark {
  private static final int KINDS = 40;
  private static final int SIGNALS = 10_000;
  private static final int RUNS = 5;

  private FaultsBenchmark() {}

  /** Prints the milliseconds of processor time of each run. */
  public static void main(String[] arguments) {
    for (String rule : List.of("most restrictive", "most restrictive fitting", "lit")) {
      String book = GeneratedLayout.book().replace("read as most restrictive", "read as " + rule);
      LayoutFacts single = facts(book, CheckOptions.FINDINGS);
      LayoutFacts twice = facts(book, new CheckOptions(false, 2));
      System.out.println(rule + ": " + twice.sites().size() + " kinds");
      for (int run = 0; run < RUNS; run++) {
        time("single faults", () -> TrialResult.singly(single.sites()));
        time("pairs", () -> Pairs.on(twice.sites(), Pairs.MOST_STEPS));
        time("false-proceed", () -> new FalseProceed().find(single));
        time("false-proceed of pairs", () -> new FalseProceed().find(twice));
        System.out.println();
      }
    }
  }

  private static void time(String what, Supplier<List<?>> work) {
    long start = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    work.get();
    long spent = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - start;
    System.out.print(String.format(Locale.ROOT, "  %s %d ms", what, spent / 1_000_000));
  }

  private static LayoutFacts facts(String book, CheckOptions asked) {
    StringBuilder yaml = new StringBuilder();
    yaml.append("layout: Generated\nrulebook: book.aspects\notherwise: most-restrictive\n");
    yaml.append("buses:\n");
    for (int bus = 0; bus < SIGNALS / 2_000; bus++) {
      yaml.append("  bus").append(bus).append(": {speaks: dcc, aspect-bits: 8}\n");
    }
    yaml.append("controllers:\n");
    for (int signal = 0; signal < SIGNALS; signal++) {
      if (signal % 50 == 0) {
        yaml.append("  c").append(signal / 50).append(":\n    flash: 28672\n    ram: 4096\n");
        yaml.append("    chains:\n      main:\n        signals:\n");
      }
      int kind = signal / 10 % KINDS;
      String head = kind % 2 == 0 ? "searchlight" : "stack";
      yaml.append("        - {name: S").append(signal).append(", form: three, heads: [");
      yaml.append(head).append(", ").append(head).append(", ").append(head);
      yaml.append("], by: aspect-number, bus: bus").append(signal / 2_000);
      yaml.append(", address: ").append(signal % 2_000 + 1).append(", aspects: [Stop");
      for (int aspect = 1; aspect < 24; aspect++) {
        if (aspect != 1 + kind / 2) {
          yaml.append(", Aspect ").append(aspect);
        }
      }
      yaml.append("]}\n");
    }
    SourceFile layout = new SourceFile("layout.yaml", yaml.toString());
    SourceFile rules = new SourceFile("book.aspects", book);
    Layout read =
        LayoutResolver.resolve("layout.yaml", path -> path.endsWith("yaml") ? layout : rules)
            .value()
            .orElseThrow();
    return LayoutFacts.of(read, asked);
  }
}
