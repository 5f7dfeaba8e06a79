package dev.doublet;

import dev.doublet.check.AcceptanceOutcome;
import dev.doublet.check.Check;
import dev.doublet.check.Checks;
import dev.doublet.check.sequence.SequenceGap;
import dev.doublet.diagnostic.Acceptance;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.BookFacts;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.table.TableWriter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The whole way from texts to findings. It reads only what its reader gives it, and never prints.
 */
public final class Compiler {
  private static final Set<Check.Needs> WHOLE = Set.of(Check.Needs.values());

  private Compiler() {}

  /**
   * A text and everything said about it.
   *
   * @param <T> what the text says: a rulebook, or a layout with its facts
   */
  public static final class Checked<T> {
    private final T value;
    private final List<Diagnostic> diagnostics;
    private final int skipped;

    private Checked(T value, List<Diagnostic> diagnostics, int skipped) {
      this.value = value;
      this.diagnostics = diagnostics.stream().sorted(Diagnostic.ORDER).distinct().toList();
      this.skipped = skipped;
    }

    /** What the text says; empty when it is too broken to tell. */
    public Optional<T> value() {
      return Optional.ofNullable(value);
    }

    /** Everything said, by file and place. */
    public List<Diagnostic> diagnostics() {
      return diagnostics;
    }

    /** True when an error was said. */
    public boolean hasErrors() {
      return diagnostics.stream().anyMatch(d -> d.severity() == Severity.ERROR);
    }

    /** How many checks did not run because of errors. */
    public int skipped() {
      return skipped;
    }
  }

  /**
   * Reads a rulebook and runs the checks of rulebooks.
   *
   * @param asked what is asked of them
   */
  public static Checked<Rulebook> checkRulebook(
      String path, SourceReader reader, CheckOptions asked) {
    return readRulebook(path, reader, asked).checked(asked.quick());
  }

  /** Reads a rulebook to be drawn, and finds the gaps of its sequence chart and nothing else. */
  public static Checked<Rulebook> readToDraw(String path, SourceReader reader) {
    return checkRulebook(path, reader, CheckOptions.FINDINGS, List.of(new SequenceGap()));
  }

  private static Checked<Rulebook> checkRulebook(
      String path, SourceReader reader, CheckOptions asked, List<Check.OfBook> checks) {
    return ReadRulebook.of(path, reader, asked, checks).checked(asked.quick());
  }

  /**
   * Checks a layout, and makes the files for its controllers: each table is lowered, written, read
   * back and compared with the layout here, and nowhere else.
   */
  public static Build build(String path, SourceReader reader) {
    return build(path, reader, TableWriter::write);
  }

  /** The same with another writer, which the proof trusts as little. */
  public static Build build(String path, SourceReader reader, Build.Writing writing) {
    return Build.of(checkLayout(path, reader, CheckOptions.FINDINGS), writing);
  }

  /**
   * Reads a layout with its rulebook and runs the checks of both.
   *
   * @param asked what is asked of them
   */
  public static Checked<LayoutFacts> checkLayout(
      String path, SourceReader reader, CheckOptions asked) {
    return readLayout(path, reader, asked).checked(asked.quick());
  }

  /**
   * A text that was read, and is checked quickly first and then wholly: what one run of checks has
   * found, the other does not look for again.
   *
   * @param <T> what the text says
   */
  public interface Read<T> {
    /**
     * Runs the checks.
     *
     * @param quick true to leave out those that take long
     */
    Checked<T> checked(boolean quick);
  }

  /** Reads a rulebook, to be checked as {@link #checkRulebook} does. */
  public static Read<Rulebook> readRulebook(String path, SourceReader reader, CheckOptions asked) {
    List<Check.OfBook> checks = new ArrayList<>(Checks.OF_BOOK);
    checks.addAll(Checks.OF_BOOK_ALONE);
    return ReadRulebook.of(path, reader, asked, checks);
  }

  /** Reads a layout with its rulebook, to be checked as {@link #checkLayout} does. */
  public static Read<LayoutFacts> readLayout(String path, SourceReader reader, CheckOptions asked) {
    Texts texts = new Texts(reader);
    Outcome<Layout> read = LayoutResolver.resolve(path, texts);
    List<Diagnostic> said = join(read.diagnostics(), texts.findings());
    if (read.value().isEmpty()) {
      int checks = Checks.OF_BOOK.size() + Checks.OF_LAYOUT.size() + Checks.OF_FINDINGS.size();
      return quick -> new Checked<>(null, said, checks);
    }
    LayoutFacts layout = LayoutFacts.of(read.value().get(), asked);
    BookFacts book = BookFacts.of(layout.layout().rulebook(), asked);
    return new ReadLayout(
        layout, asked, met(read), said, new Checks.Known<>(book), new Checks.Known<>(layout));
  }

  private record ReadRulebook(
      Rulebook book,
      CheckOptions asked,
      Set<Check.Needs> met,
      List<Diagnostic> said,
      List<Check.OfBook> checks,
      Checks.Known<BookFacts> facts)
      implements Read<Rulebook> {

    static ReadRulebook of(
        String path, SourceReader reader, CheckOptions asked, List<Check.OfBook> checks) {
      Texts texts = new Texts(reader);
      Outcome<Rulebook> read = RulebookResolver.resolve(path, texts);
      List<Diagnostic> said = join(read.diagnostics(), texts.findings());
      Rulebook book = read.value().orElseThrow();
      Set<Check.Needs> met = read.hasErrors() ? Set.of(Check.Needs.NOTHING) : WHOLE;
      return new ReadRulebook(
          book, asked, met, said, checks, new Checks.Known<>(BookFacts.of(book, asked)));
    }

    @Override
    public Checked<Rulebook> checked(boolean quick) {
      CheckOptions now = asked.quickly(quick);
      Checks.Findings found = facts.run(Compiler.asked(checks, now), met, List.of());
      List<Diagnostic> all = join(said, found.diagnostics());
      return accepting(book, book.acceptances(), now, met, all, found.skipped());
    }
  }

  private record ReadLayout(
      LayoutFacts layout,
      CheckOptions asked,
      Set<Check.Needs> met,
      List<Diagnostic> said,
      Checks.Known<BookFacts> book,
      Checks.Known<LayoutFacts> facts)
      implements Read<LayoutFacts> {

    @Override
    public Checked<LayoutFacts> checked(boolean quick) {
      CheckOptions now = asked.quickly(quick);
      Checks.Findings ofBook = book.run(Compiler.asked(Checks.OF_BOOK, now), met, List.of());
      Checks.Findings ofLayout =
          facts.run(Compiler.asked(Checks.OF_LAYOUT, now), met, ofBook.diagnostics());
      List<Acceptance> acceptances = new ArrayList<>(layout.layout().rulebook().acceptances());
      acceptances.addAll(layout.layout().acceptances());
      List<Diagnostic> all = join(said, join(ofBook.diagnostics(), ofLayout.diagnostics()));
      return accepting(layout, acceptances, now, met, all, ofBook.skipped() + ofLayout.skipped());
    }
  }

  /** What checks may count on: a mistake in the rulebook leaves less whole than one in a layout. */
  private static Set<Check.Needs> met(Outcome<Layout> read) {
    if (!read.hasErrors()) {
      return WHOLE;
    }
    return read.value().orElseThrow().rulebook().isWhole()
        ? Set.of(Check.Needs.NOTHING, Check.Needs.BOOK)
        : Set.of(Check.Needs.NOTHING);
  }

  private static <T> Checked<T> accepting(
      T value,
      List<Acceptance> acceptances,
      CheckOptions asked,
      Set<Check.Needs> met,
      List<Diagnostic> found,
      int skipped) {
    AcceptanceOutcome accepted = AcceptanceOutcome.of(acceptances, found);
    if (asked.quick()) {
      // What was not looked for is not known to be idle.
      return new Checked<>(value, accepted.diagnostics(), skipped);
    }
    Checks.Findings idle = Checks.run(Checks.OF_FINDINGS, accepted, met, accepted.diagnostics());
    return new Checked<>(
        value, join(accepted.diagnostics(), idle.diagnostics()), skipped + idle.skipped());
  }

  private static <C extends Check<?>> List<C> asked(List<C> checks, CheckOptions asked) {
    return checks.stream()
        .filter(c -> asked.notes() || !c.givesOnlyNotes())
        .filter(c -> !(asked.quick() && c.takesLong()))
        .toList();
  }

  private static List<Diagnostic> join(List<Diagnostic> first, List<Diagnostic> second) {
    List<Diagnostic> joined = new ArrayList<>(first);
    joined.addAll(second);
    return joined;
  }

  /** Remembers the texts that were read, to look at their letters. */
  private static final class Texts implements SourceReader {
    private final SourceReader reader;
    private final Map<String, SourceFile> read = new LinkedHashMap<>();

    Texts(SourceReader reader) {
      this.reader = reader;
    }

    @Override
    public SourceFile read(String path) throws Unreadable {
      SourceFile file = reader.read(path);
      read.put(file.name(), file);
      return file;
    }

    List<Diagnostic> findings() {
      return Checks.run(Checks.OF_TEXTS, List.copyOf(read.values()), WHOLE, List.of())
          .diagnostics();
    }
  }
}
