package dev.doublet.format;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Lexeme;
import dev.doublet.syntax.Lexemes;
import dev.doublet.syntax.YamlLexemes;
import dev.doublet.syntax.YamlReader;
import java.util.List;
import java.util.Optional;
import java.util.function.BiPredicate;

/** Says what has to be changed for a text to be in the one form. */
public final class Format {
  private Format() {}

  /** In which language a text is written. */
  public enum Language {
    /** A rulebook. */
    ASPECTS,
    /** A layout, in YAML. */
    LAYOUT
  }

  /**
   * All changes of a text, in order.
   *
   * @return empty changes when it is in its form already. None at all when it is broken, with what
   *     is wrong with it; or, without a word, when the changes would alter what it says, which
   *     would be a mistake of ours.
   */
  public static Outcome<List<Spacing>> changes(Language language, SourceFile file) {
    return language == Language.ASPECTS ? rulebook(file) : layout(file);
  }

  /**
   * The changes that touch some lines. Each stands for itself, so that any of them may be made and
   * others left.
   *
   * @param first the first line, from 1
   * @param last the last line
   */
  public static Outcome<List<Spacing>> changes(
      Language language, SourceFile file, int first, int last) {
    Outcome<List<Spacing>> all = changes(language, file);
    return all.value()
        .map(changes -> changes.stream().filter(c -> touches(c.span(), first, last)).toList())
        .map(changes -> Outcome.of(changes, all.diagnostics()))
        .orElse(all);
  }

  private static boolean touches(Span span, int first, int last) {
    SourceFile file = span.file();
    // White space before the first piece of a line belongs to that line alone.
    return file.position(span.end()).line() >= first && file.position(span.end()).line() <= last;
  }

  /** A text with changes made in it. */
  public static String apply(SourceFile file, List<Spacing> changes) {
    StringBuilder text = new StringBuilder();
    int at = 0;
    for (Spacing change : changes) {
      text.append(file.text(), at, change.span().start()).append(change.text());
      at = change.span().end();
    }
    return text.append(file.text(), at, file.text().length()).toString();
  }

  private static Outcome<List<Spacing>> rulebook(SourceFile file) {
    Optional<List<Lexeme>> lexemes = Lexemes.of(file);
    if (lexemes.isEmpty()) {
      return Outcome.failed(AspectsSyntax.parse(file).diagnostics());
    }
    List<Spacing> changes = RulebookForm.changes(file, lexemes.get());
    if (changes.isEmpty()) {
      return Outcome.of(changes, List.of());
    }
    Optional<List<Lexeme>> after = Lexemes.of(changed(file, changes));
    return isSame(lexemes, after, Lexeme::says)
        ? Outcome.of(changes, List.of())
        : Outcome.failed(List.of());
  }

  private static Outcome<List<Spacing>> layout(SourceFile file) {
    Optional<YamlLexemes> split = YamlLexemes.of(file);
    if (split.isEmpty() || !split.get().areSurelyRead()) {
      List<Diagnostic> mistakes =
          YamlReader.read(file).diagnostics().stream()
              .filter(d -> d.tier() == Tier.SYNTAX)
              .toList();
      if (split.isEmpty() || !mistakes.isEmpty()) {
        return Outcome.failed(mistakes);
      }
    }
    YamlLexemes lexemes = split.get();
    // A text in a block of lines may not allow that the lines around it begin elsewhere.
    for (boolean indents : List.of(true, false)) {
      List<Spacing> changes = LayoutForm.changes(file, lexemes.all(), indents);
      if (changes.isEmpty() || lexemes.areThoseOf(changed(file, changes))) {
        return Outcome.of(changes, List.of());
      }
    }
    return Outcome.failed(List.of());
  }

  private static SourceFile changed(SourceFile file, List<Spacing> changes) {
    return new SourceFile(file.name(), apply(file, changes));
  }

  private static <T> boolean isSame(
      Optional<List<T>> before, Optional<List<T>> after, BiPredicate<T, T> same) {
    return before.isPresent() && after.isPresent() && isSame(before.get(), after.get(), same);
  }

  private static <T> boolean isSame(List<T> before, List<T> after, BiPredicate<T, T> same) {
    if (before.size() != after.size()) {
      return false;
    }
    for (int i = 0; i < before.size(); i++) {
      if (!same.test(before.get(i), after.get(i))) {
        return false;
      }
    }
    return true;
  }
}
