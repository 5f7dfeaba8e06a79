package dev.doublet.cli;

import dev.doublet.chart.Wiring;
import dev.doublet.chart.WiringCsv;
import dev.doublet.chart.WiringMarkdown;
import dev.doublet.facts.LayoutFacts;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code wiring}: what hangs where on each controller, and what it draws. */
@Command(
    name = "wiring",
    mixinStandardHelpOptions = true,
    description =
        "Lists each controller's chains LED by LED, with addresses, currents, voltages, fuses and"
            + " parts, to solder by.")
final class WiringVerb implements Callable<Integer> {
  private final Terminal terminal;

  /** How the list is written. */
  enum Format {
    markdown,
    csv
  }

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Option(names = "--format", paramLabel = "FORMAT", description = "markdown (as usual) or csv")
  private Format format = Format.markdown;

  @Option(
      names = "--output",
      paramLabel = "FOLDER",
      description = "writes a file for each controller instead of printing")
  private String output = "";

  WiringVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Optional<LayoutFacts> facts = SoundLayout.read(path, terminal);
    if (facts.isEmpty()) {
      if (!output.isEmpty()) {
        terminal.complain("nothing was written");
      }
      return Main.FINDINGS;
    }
    List<Wiring> wirings = Wiring.of(facts.get());
    if (output.isEmpty()) {
      terminal.print(text(wirings));
      return Main.CLEAN;
    }
    List<Product> files = new ArrayList<>();
    for (Wiring wiring : wirings) {
      String name = wiring.controller() + (format == Format.csv ? ".wiring.csv" : ".wiring.md");
      files.add(Product.text(name, text(List.of(wiring))));
    }
    OutputFolder.write(terminal.folder(), output, files);
    files.forEach(file -> terminal.print(file.name() + "\n"));
    return Main.CLEAN;
  }

  private String text(List<Wiring> wirings) {
    return format == Format.csv
        ? WiringCsv.of(wirings)
        : wirings.stream().map(WiringMarkdown::of).collect(Collectors.joining("\n"));
  }
}
