package dev.doublet.cli;

import dev.doublet.chart.Labels;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.page.LabelsPage;
import java.io.IOException;
import java.util.Optional;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code labels}: what is stuck on signals and cables. */
@Command(
    name = "labels",
    mixinStandardHelpOptions = true,
    description =
        "Prints a page of labels for signals and both ends of cables, true to size on A4 and"
            + " Letter when printed at 100 %%.")
final class LabelsVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Option(
      names = "--width",
      paramLabel = "MM",
      description = "of a label in millimetres, 10 to 186; 31 when left out")
  private String width = "31";

  @Option(
      names = "--height",
      paramLabel = "MM",
      description = "of a label in millimetres, 5 to 100; 10 when left out")
  private String height = "10";

  LabelsVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    int wide = new WholeNumber("--width", "millimetres", 10, LabelsPage.WIDEST).of(width);
    int high = new WholeNumber("--height", "millimetres", 5, 100).of(height);
    Optional<LayoutFacts> facts = SoundLayout.read(path, terminal);
    if (facts.isEmpty()) {
      return Main.FINDINGS;
    }
    terminal.print(LabelsPage.html(Labels.of(facts.get()), wide, high));
    return Main.CLEAN;
  }
}
