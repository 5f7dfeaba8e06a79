package dev.doublet.cli;

import dev.doublet.Compiler;
import dev.doublet.MendedTexts;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.page.TwinLook;
import dev.doublet.report.AnnotationLines;
import dev.doublet.report.Baseline;
import dev.doublet.report.Findings;
import dev.doublet.report.JsonFindings;
import dev.doublet.report.Patch;
import dev.doublet.report.SarifFindings;
import dev.doublet.report.Summary;
import dev.doublet.report.TextRendering;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import java.util.function.UnaryOperator;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** {@code check}: what is wrong with rulebooks and layouts. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description =
        "Says what is wrong with rulebooks (.aspects) and layouts (.yaml). In a folder these are the"
            + " rulebooks, and the files whose names end in layout.yaml.")
final class CheckVerb implements Callable<Integer> {
  private final Terminal terminal;

  @Parameters(paramLabel = "FILE", arity = "1..*", description = "a rulebook, a layout or a folder")
  private List<String> paths;

  @Option(names = "--notes", description = "show notes too")
  private boolean notes;

  @Option(
      names = "--faults",
      paramLabel = "N",
      description = "1 (as usual): single faults; 2: also every two faults of a signal at once")
  private String faults = "1";

  @Option(names = "--strict", description = "a warning fails the run, as an error does")
  private boolean strict;

  @Option(
      names = "--as",
      paramLabel = "FORMAT",
      description = "text (as usual), json, sarif, or annotations for a review on a forge")
  private Format as = Format.text;

  @Option(
      names = "--baseline",
      paramLabel = "FILE",
      description = "leaves out the findings of this file, and tells which are gone")
  private String baseline = "";

  @Option(
      names = "--write-baseline",
      paramLabel = "FILE",
      description =
          "writes what is found into a file for --baseline; together with it, only what that knows"
              + " and is still found, so that nothing new is taken in")
  private String newBaseline = "";

  @Option(
      names = "--fix",
      description = "mends in the files what has one sure mend, and says what is left")
  private boolean fix;

  @Option(
      names = "--dry-run",
      description = "with --fix: prints a patch for git apply, and changes no file")
  private boolean dryRun;

  /** The rulebooks that were read, for what is drawn of findings. */
  private final List<Rulebook> books = new ArrayList<>();

  /** How findings are written. */
  enum Format {
    text,
    json,
    sarif,
    annotations
  }

  CheckVerb(Terminal terminal) {
    this(terminal, new ArrayList<>());
  }

  /** A check as it is without options. */
  CheckVerb(Terminal terminal, List<String> paths) {
    this.terminal = terminal;
    this.paths = paths;
  }

  @Override
  public Integer call() throws IOException {
    if (!faults.equals("1") && !faults.equals("2")) {
      terminal.complain("--faults takes 1 or 2, not \"" + faults + "\"");
      return Main.COULD_NOT_RUN;
    }
    if (dryRun && !fix) {
      terminal.complain("--dry-run goes with --fix");
      return Main.COULD_NOT_RUN;
    }
    if (as != Format.text && (dryRun || baseline.isEmpty() && !newBaseline.isEmpty())) {
      terminal.complain(
          (dryRun ? "--dry-run" : "--write-baseline")
              + " has a form of its own, and takes no --as");
      return Main.COULD_NOT_RUN;
    }
    Disk disk = new Disk(terminal.folder(), paths);
    Inputs inputs = Inputs.find(paths, terminal.folder(), disk);
    if (fix) {
      return mend(inputs, disk);
    }
    Findings findings = findings(inputs, disk);
    if (!baseline.isEmpty()) {
      return showNew(findings);
    }
    return newBaseline.isEmpty() ? show(findings) : write(findings);
  }

  private Findings findings(Inputs inputs, SourceReader reader) {
    CheckOptions asked = new CheckOptions(notes, Integer.parseInt(faults));
    List<Diagnostic> all = new ArrayList<>();
    int skipped = 0;
    books.clear();
    for (String path : inputs.files()) {
      Compiler.Checked<?> checked;
      if (LayoutResolver.isLayout(path)) {
        Compiler.Checked<LayoutFacts> layout = Compiler.checkLayout(path, reader, asked);
        layout.value().ifPresent(facts -> books.add(facts.layout().rulebook()));
        checked = layout;
      } else {
        Compiler.Checked<Rulebook> book = Compiler.checkRulebook(path, reader, asked);
        book.value().ifPresent(books::add);
        checked = book;
      }
      all.addAll(checked.diagnostics());
      skipped = Math.max(skipped, checked.skipped());
    }
    return Findings.of(inputs.files(), all, skipped, notes);
  }

  private int mend(Inputs inputs, Disk disk) throws IOException {
    if (!newBaseline.isEmpty() || !baseline.isEmpty()) {
      terminal.complain("--fix goes with no baseline: mend first, then compare");
      return Main.COULD_NOT_RUN;
    }
    MendedTexts<Findings> mended =
        MendedTexts.of(disk, reader -> findings(inputs, reader), Findings::diagnostics);
    Texts texts = new Texts(terminal.folder(), disk);
    if (dryRun) {
      StringBuilder patch = new StringBuilder();
      for (Map.Entry<SourceFile, SourceFile> text : mended.texts().entrySet()) {
        String mark = texts.mark(text.getKey());
        String path = texts.path(text.getKey());
        patch.append(Patch.of(path, mark + text.getKey().text(), mark + text.getValue().text()));
      }
      terminal.printRaw(patch.toString());
      if (!mended.left().all().isEmpty()) {
        // The patch alone is the result.
        terminal.tell(Summary.of(mended.left()).text(false));
      }
      return Summary.of(mended.left()).isFailure(strict) ? Main.FINDINGS : Main.CLEAN;
    }
    texts.write(mended.texts());
    if (as == Format.text) {
      terminal.print(TextRendering.mended(mended.done()));
    }
    return show(mended.left());
  }

  private int write(Findings findings) throws IOException {
    BaselineFile file = BaselineFile.of(newBaseline, terminal.folder());
    Baseline made = Baseline.of(findings, file::name);
    file.write(made);
    terminal.print(written(made));
    return Main.CLEAN;
  }

  private String written(Baseline made) {
    return newBaseline + ": " + Words.count(made.known().size(), "finding") + "\n";
  }

  private int showNew(Findings findings) throws IOException {
    BaselineFile file = BaselineFile.of(baseline, terminal.folder());
    Baseline known = file.read();
    Findings unknown = known.unknown(findings, file::name);
    if (!newBaseline.isEmpty()) {
      BaselineFile other = BaselineFile.of(newBaseline, terminal.folder());
      // Written as seen from where the new one lies.
      Findings old = known.known(findings, file::name);
      Baseline still = Baseline.of(old, other::name);
      other.write(still);
      terminal.tell(written(still));
    }
    int code = show(unknown);
    List<String> gone = known.gone(findings, file::name);
    if (!gone.isEmpty()) {
      terminal.complain(
          Words.count(gone.size(), "finding")
              + " of "
              + baseline
              + " "
              + (gone.size() == 1 ? "is" : "are")
              + " gone; write it anew to drop: "
              + Words.list(gone));
    }
    return code;
  }

  private int show(Findings findings) throws IOException {
    Summary summary = Summary.of(findings);
    if (as == Format.text) {
      terminal.show(summary, TwinLook.drawing(books));
    } else {
      terminal.print(document(findings));
    }
    return summary.isFailure(strict) ? Main.FINDINGS : Main.CLEAN;
  }

  private String document(Findings findings) throws IOException {
    UnaryOperator<String> place = Checkout.places(terminal.folder());
    return switch (as) {
      case json -> JsonFindings.of(findings);
      case sarif -> SarifFindings.of(findings, Version.number(), CheckVerb::page, place);
      default -> AnnotationLines.of(findings, place);
    };
  }

  private static String page(String name) {
    return ExplainPages.all().stream()
        .filter(p -> p.name().equals(name))
        .map(ExplainPage::text)
        .findFirst()
        .orElse("");
  }
}
