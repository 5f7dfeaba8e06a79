package dev.doublet.cli;

import dev.doublet.table.TableFault;
import dev.doublet.table.TableListing;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HexFormat;
import java.util.concurrent.Callable;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code inspect}: a table's bytes in words. */
@Command(
    name = "inspect",
    mixinStandardHelpOptions = true,
    description = "Lists what a table holds, so that people and git can read it.")
final class InspectVerb implements Callable<Integer> {
  /** One more than a table can have, so that a longer file is refused. */
  private static final int MOST_BYTES = 0x10000;

  /** A table's bytes take some six characters each, and its names are of any length. */
  private static final int MOST_OF_A_HEADER = 8 << 20;

  private static final Pattern BYTE = Pattern.compile(" 0x(\\p{XDigit}{2}),");

  private final Terminal terminal;

  @Parameters(paramLabel = "TABLE", description = "a table (.bin)")
  private String path = "";

  @Option(
      names = "--textconv",
      description =
          "for git's textconv: a file that is no sound table is told of instead of refused, so that"
              + " histories can be read that hold one")
  private boolean textconv;

  InspectVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Path file = terminal.folder().resolve(path);
    if (Files.isDirectory(file)) {
      throw new FileSystemException(path, null, "this is a folder, not a table (.bin)");
    }
    if (Files.exists(file) && !Files.isRegularFile(file)) {
      throw new FileSystemException(path, null, "this is a pipe or a device, not a table (.bin)");
    }
    byte[] bytes = start(file, MOST_BYTES);
    String listing;
    try {
      listing = TableListing.of(bytes);
    } catch (TableFault fault) {
      return refuse(fault.getMessage());
    }
    Path header = file.resolveSibling(name(file).replaceFirst("\\.bin$", "") + ".h");
    if (Product.isMade(header) && !holds(header, bytes)) {
      return refuse(
          name(header)
              + " beside it holds another table; a build was cut short, or one of the two was"
              + " copied alone: build again");
    }
    terminal.print(listing);
    return Main.CLEAN;
  }

  private int refuse(String reason) {
    if (textconv) {
      terminal.print("refused: " + reason + "\n");
      return Main.CLEAN;
    }
    terminal.complain(path + " is refused: " + reason);
    return Main.FINDINGS;
  }

  private static String name(Path file) {
    return file.getFileName().toString();
  }

  private static byte[] start(Path file, int most) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      return in.readNBytes(most);
    }
  }

  /** True when the bytes that a header lists are those of a table. */
  private static boolean holds(Path header, byte[] table) throws IOException {
    String text = new String(start(header, MOST_OF_A_HEADER), StandardCharsets.UTF_8);
    String listed =
        BYTE.matcher(text).results().map(found -> found.group(1)).collect(Collectors.joining());
    return listed.equalsIgnoreCase(HexFormat.of().formatHex(table));
  }
}
