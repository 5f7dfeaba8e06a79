package dev.doublet.cli;

import dev.doublet.table.TableFault;
import dev.doublet.table.TableListing;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;

/** {@code inspect}: a table's bytes in words. */
@Command(
    name = "inspect",
    mixinStandardHelpOptions = true,
    description = "Lists what a table holds, so that people and git can read it.")
final class InspectVerb implements Callable<Integer> {
  /** One more than a table can have, so that a longer file is refused. */
  private static final int MOST_BYTES = 0x10000;

  private final Terminal terminal;

  @Parameters(paramLabel = "TABLE", description = "a table (.bin)")
  private String path = "";

  InspectVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Path file = terminal.folder().resolve(path);
    if (Files.isDirectory(file)) {
      throw new FileSystemException(path, null, "this is a folder, not a table (.bin)");
    }
    byte[] bytes;
    try (InputStream in = Files.newInputStream(file)) {
      bytes = in.readNBytes(MOST_BYTES);
    }
    try {
      terminal.out().print(TableListing.of(bytes));
      return Main.CLEAN;
    } catch (TableFault fault) {
      terminal.err().println("doublet: " + path + " is refused: " + fault.getMessage());
      return Main.FINDINGS;
    }
  }
}
