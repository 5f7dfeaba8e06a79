package dev.doublet.cli;

import dev.doublet.table.TableFault;
import dev.doublet.table.TableListing;
import java.io.IOException;
import java.nio.file.Files;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code inspect}: a table's bytes in words. */
@Command(
    name = "inspect",
    mixinStandardHelpOptions = true,
    description = "Lists what a table holds, so that people and git can read it.")
final class InspectVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "TABLE", description = "a table (.bin)")
  private String path = "";

  InspectVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    byte[] bytes = Files.readAllBytes(terminal.folder().resolve(path));
    try {
      terminal.out().print(TableListing.of(bytes));
      return Main.CLEAN;
    } catch (TableFault fault) {
      terminal.err().println("doublet: " + path + " is refused: " + fault.getMessage());
      return Main.FINDINGS;
    }
  }
}
