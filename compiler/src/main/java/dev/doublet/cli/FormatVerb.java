package dev.doublet.cli;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Words;
import dev.doublet.format.Format;
import dev.doublet.format.Spacing;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.report.TextRendering;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.FileSystemException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code format}: rulebooks and layouts in their one form. */
@Command(
    name = "format",
    mixinStandardHelpOptions = true,
    description =
        "Sets rulebooks (.aspects) and layouts (.yaml) in their one form; nothing but white space"
            + " is changed. In a folder these are the rulebooks with the files that they use, and"
            + " the files whose names end in layout.yaml.")
final class FormatVerb implements Callable<Integer> {
  private static final String STANDARD_INPUT = "-";
  private static final Pattern LINES = Pattern.compile("([1-9]\\d{0,8}):([1-9]\\d{0,8})");

  private final Terminal terminal;

  @Parameters(
      paramLabel = "FILE",
      arity = "1..*",
      description = "a rulebook, a layout or a folder; - for standard input, with --as")
  private List<String> paths = new ArrayList<>();

  @Option(names = "--check", description = "write nothing, and fail if anything would change")
  private boolean check;

  @Option(
      names = "--as",
      paramLabel = "LANGUAGE",
      description = "aspects or layout: what standard input is")
  private As as;

  @Option(
      names = "--lines",
      paramLabel = "FIRST:LAST",
      description = "change these lines of one file, and no others")
  private String lines = "";

  private int formatted;
  private int inForm;
  private int code = Main.CLEAN;

  /** What standard input is. */
  enum As {
    aspects,
    layout
  }

  FormatVerb(Terminal terminal) {
    this.terminal = terminal;
  }

  @Override
  public Integer call() throws IOException {
    Matcher range = LINES.matcher(lines);
    if (!lines.isEmpty() && !range.matches()) {
      terminal.complain(
          "--lines takes the first and the last line, as 3:17, not \"" + lines + "\"");
      return Main.COULD_NOT_RUN;
    }
    if (range.matches() && Integer.parseInt(range.group(1)) > Integer.parseInt(range.group(2))) {
      terminal.complain("--lines takes the first line first, not \"" + lines + "\"");
      return Main.COULD_NOT_RUN;
    }
    boolean input = paths.contains(STANDARD_INPUT);
    if (input && (paths.size() > 1 || as == null || check)) {
      terminal.complain("- stands alone, and needs --as aspects or --as layout, without --check");
      return Main.COULD_NOT_RUN;
    }
    if (!input && as != null) {
      terminal.complain("--as goes with -; a file is what its name ends in");
      return Main.COULD_NOT_RUN;
    }
    return input ? standardInput() : files();
  }

  private int standardInput() throws IOException {
    SourceFile file;
    try {
      file =
          new SourceFile(
              "standard input", Utf8.text(terminal.input().readNBytes(Utf8.MOST_BYTES + 1)));
    } catch (SourceReader.Unreadable e) {
      throw new FileSystemException("standard input", null, e.getMessage());
    }
    changes(language(as == As.layout), file)
        .ifPresent(changes -> terminal.printRaw(Format.apply(file, changes)));
    return code;
  }

  private int files() throws IOException {
    Disk disk = new Disk(terminal.folder(), paths);
    List<String> files = Inputs.texts(paths, terminal.folder()).files();
    if (!lines.isEmpty() && (files.size() > 1 || !files.equals(paths))) {
      terminal.complain("--lines takes one file");
      return Main.COULD_NOT_RUN;
    }
    for (String path : files) {
      if (!Inputs.isText(path)) {
        throw new FileSystemException(
            path, null, "this is no rulebook (.aspects) and no layout (.yaml)");
      }
    }
    for (String path : files) {
      file(path, disk);
    }
    String other = inForm == 1 ? " is in its form" : " are in their form";
    String which = check ? " would change, " : " formatted, ";
    terminal.print(Words.count(formatted, "file") + which + inForm + other + "\n");
    return check && formatted > 0 ? Math.max(code, Main.FINDINGS) : code;
  }

  private void file(String path, Disk disk) throws IOException {
    SourceFile file;
    try {
      file = disk.read(path);
    } catch (SourceReader.Unreadable e) {
      throw new FileSystemException(path, null, e.getMessage());
    }
    Optional<List<Spacing>> changes = changes(language(LayoutResolver.isLayout(path)), file);
    if (changes.isEmpty()) {
      return;
    }
    if (changes.get().isEmpty()) {
      inForm++;
      return;
    }
    if (!check) {
      String text = Format.apply(file, changes.get());
      new Texts(terminal.folder(), disk).write(Map.of(file, new SourceFile(path, text)));
    }
    formatted++;
    terminal.print(path + "\n");
  }

  /** What is to be changed in a text; empty when that has been told to be impossible. */
  private Optional<List<Spacing>> changes(Format.Language language, SourceFile file) {
    Matcher range = LINES.matcher(lines);
    Outcome<List<Spacing>> outcome =
        range.matches()
            ? Format.changes(
                language, file, Integer.parseInt(range.group(1)), Integer.parseInt(range.group(2)))
            : Format.changes(language, file);
    if (outcome.value().isEmpty()) {
      List<Diagnostic> mistakes = outcome.diagnostics();
      terminal.tell(new TextRendering(false).draw(mistakes));
      terminal.complain(
          file.name()
              + (mistakes.isEmpty()
                  ? " is left as it is: its form would say something else, which is a mistake of"
                      + " Doublet's"
                  : " is left as it is: it cannot be read"));
      code = Math.max(code, mistakes.isEmpty() ? Main.COULD_NOT_RUN : Main.FINDINGS);
    }
    return outcome.value();
  }

  private static Format.Language language(boolean layout) {
    return layout ? Format.Language.LAYOUT : Format.Language.ASPECTS;
  }
}
