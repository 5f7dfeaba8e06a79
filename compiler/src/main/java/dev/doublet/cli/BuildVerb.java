package dev.doublet.cli;

import dev.doublet.Compiler;
import dev.doublet.check.budget.SlowChain;
import dev.doublet.facts.Asked;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Supply;
import dev.doublet.power.Draw;
import dev.doublet.power.Flow;
import dev.doublet.report.Summary;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.table.TableHeader;
import dev.doublet.table.TableNeeds;
import dev.doublet.table.TableProof;
import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code build}: a proven table for every controller of a layout. */
@Command(
    name = "build",
    mixinStandardHelpOptions = true,
    description =
        "Checks a layout, and writes a table (.bin and .h) for each controller and the reader beside"
            + " them. Each table is read back and compared with the layout first; nothing is written"
            + " when anything is wrong.")
final class BuildVerb implements Callable<Integer> {
  private static final String READER = "doublet_reader.h";

  private final Terminal terminal;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Option(names = "--output", paramLabel = "FOLDER", required = true, description = "where to")
  private String output = "";

  BuildVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Disk disk = new Disk(terminal.folder(), List.of(path));
    String file = Inputs.layout(path, terminal.folder(), disk);
    Compiler.Checked<LayoutFacts> checked = Compiler.checkLayout(file, disk, Asked.FINDINGS);
    Summary summary = Summary.of(checked.diagnostics(), 1, checked.skipped(), false);
    if (summary.hasErrors() || checked.value().isEmpty()) {
      terminal.show(summary);
      terminal.err().println("doublet: nothing was written");
      return Main.FINDINGS;
    }
    LayoutFacts facts = checked.value().get();
    Rulebook book = facts.layout().rulebook();
    List<Product> files = new ArrayList<>();
    List<Optional<String>> differences =
        facts.tables().parallelStream()
            .map(t -> TableProof.firstDifference(book, t.controller(), t.bytes()))
            .toList();
    for (int i = 0; i < facts.tables().size(); i++) {
      LayoutFacts.Tabled table = facts.tables().get(i);
      if (differences.get(i).isPresent()) {
        terminal
            .err()
            .println("doublet: " + unproven(table.controller(), differences.get(i).get()));
        return Main.COULD_NOT_RUN;
      }
      String name = table.controller().name();
      files.add(new Product(name + ".bin", table.bytes()));
      String header = TableHeader.of(book, table.controller(), table.bytes());
      files.add(Product.text(name + ".h", header));
    }
    files.add(new Product(READER, reader()));
    OutputFolder.write(terminal.folder(), output, files);
    facts.tables().forEach(t -> terminal.out().print(budget(book, t)));
    return terminal.show(summary);
  }

  private static String unproven(Controller controller, String difference) {
    return say(
        "the table for controller %s does not do what the layout says (%s), so nothing was written;"
            + " this is a fault in Doublet: please report it with the layout",
        controller.name(), difference);
  }

  private static String budget(Rulebook book, LayoutFacts.Tabled table) {
    Controller controller = table.controller();
    StringBuilder out = new StringBuilder();
    out.append(
        say(
            "%s.bin: %d signals, %d of %d bytes of flash, %d of %d bytes of ram%n",
            controller.name(),
            controller.signals().size(),
            table.bytes().length,
            controller.flash(),
            TableNeeds.of(controller, table.bytes()).ram(),
            controller.ram()));
    for (Chain chain : controller.chains()) {
      Supply supply = chain.supply();
      Draw draw = Draw.of(book, controller, chain);
      String given = supply.milliamps() == 0 ? "" : say(" of %d", supply.milliamps());
      String shared = supply.name().isEmpty() ? "" : " of supply " + supply.name();
      String least =
          Flow.of(chain, draw).map(f -> say(", at least %.2f V", f.leastVolts())).orElse("");
      out.append(
          say(
              "  chain %s: %d LEDs, at most %.0f%s mA%s%s, sent in %.1f ms%n",
              chain.name(),
              chain.leds(),
              Math.ceil(draw.milliamps()),
              given,
              shared,
              least,
              SlowChain.refreshMicros(chain) / 1000));
    }
    return out.toString();
  }

  private static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values).replace("\r\n", "\n");
  }

  private static byte[] reader() throws IOException {
    try (InputStream in = TableHeader.class.getResourceAsStream("/dev/doublet/" + READER)) {
      if (in == null) {
        throw new IOException("the reader is missing from this jar");
      }
      return in.readAllBytes();
    }
  }
}
