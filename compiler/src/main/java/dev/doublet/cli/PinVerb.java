package dev.doublet.cli;

import dev.doublet.PinnedLayout;
import dev.doublet.diagnostic.Words;
import dev.doublet.report.Patch;
import dev.doublet.report.Summary;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.FileSystemException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code pin}: writes every automatic address and value into a layout's file. */
@Command(
    name = "pin",
    mixinStandardHelpOptions = true,
    description =
        "Writes addresses and values into a layout where they are missing, as they are now, so that"
            + " none moves when a signal or an aspect is added. Comments and all else stay as they"
            + " are. From then on one that is missing is an error.")
final class PinVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "LAYOUT", description = "a layout (.yaml)")
  private String path = "";

  @Option(names = "--dry-run", description = "prints a patch for git apply, and changes no file")
  private boolean dryRun;

  PinVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Disk disk = new Disk(terminal.folder(), List.of(path));
    String file = Inputs.layout(path, terminal.folder(), disk);
    PinnedLayout pinned = pinned(file, disk);
    if (pinned.after().isEmpty()) {
      terminal.show(Summary.of(pinned.said(), 1, 0, false));
      terminal.complain("nothing was written");
      return Main.FINDINGS;
    }
    SourceFile before = pinned.before();
    SourceFile after = pinned.after().get();
    Texts texts = new Texts(terminal.folder(), disk);
    if (dryRun) {
      String mark = texts.mark(before);
      terminal.printRaw(Patch.of(texts.path(before), mark + before.text(), mark + after.text()));
      return Main.CLEAN;
    }
    if (before.text().equals(after.text())) {
      terminal.print(file + " is pinned already\n");
      return Main.CLEAN;
    }
    texts.write(Map.of(before, after));
    terminal.print(file + ": " + written(pinned) + "\n");
    return Main.CLEAN;
  }

  private static PinnedLayout pinned(String file, Disk disk) throws IOException {
    try {
      return PinnedLayout.of(file, disk);
    } catch (SourceReader.Unreadable e) {
      throw new FileSystemException(file, null, e.getMessage());
    }
  }

  private static String written(PinnedLayout pinned) {
    List<String> counts = new ArrayList<>();
    if (pinned.addresses() > 0) {
      counts.add(Words.count(pinned.addresses(), "address"));
    }
    if (pinned.values() > 0) {
      counts.add(Words.count(pinned.values(), "value"));
    }
    return counts.isEmpty() ? "pinned; it said all before" : "pinned, with " + Words.list(counts);
  }
}
