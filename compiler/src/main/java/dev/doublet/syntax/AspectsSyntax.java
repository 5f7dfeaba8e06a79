package dev.doublet.syntax;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.source.Visible;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/** Reads the language of .aspects files. */
public final class AspectsSyntax {
  /** The longest text that is read, in characters: several thousand aspects. */
  public static final int LONGEST = 2_000_000;

  private static final Function<SourceFile, Outcome<Tree>> PARSING = AspectsSyntax::parsed;

  private AspectsSyntax() {}

  /**
   * Reads one text.
   *
   * @return always a tree, and every independent mistake in the grammar: with mistakes, the tree
   *     holds what could be read in spite of them, which is nothing when the text is none or too
   *     long
   */
  public static Outcome<Tree> parse(SourceFile file) {
    return file.once(PARSING);
  }

  private static Outcome<Tree> parsed(SourceFile file) {
    Optional<Diagnostic> notText = notText(file);
    if (notText.isPresent()) {
      return Outcome.of(nothing(file), List.of(notText.get()));
    }
    TextWords words = new TextWords(file);
    Mending mending = new Mending(words);
    return Outcome.of(mending.tree(), mending.mistakes());
  }

  /** The tree of a text of which nothing can be read: it may declare any name. */
  public static Tree nothing(SourceFile file) {
    Span all = file.span(0, file.text().length());
    return new Tree(
        file, List.of(), List.of(new Tree.Broken(all, List.of(), List.of(), true)), List.of());
  }

  /** False for what is no text, or too long to be a rulebook. */
  static boolean isText(SourceFile file) {
    return notText(file).isEmpty();
  }

  private static Optional<Diagnostic> notText(SourceFile file) {
    String text = file.text();
    if (text.length() > LONGEST) {
      return Optional.of(
          Diagnostic.error(
                  "not-text",
                  Tier.SYNTAX,
                  file.span(0, 0),
                  "{file} is too long: {length} of at most {most}",
                  Datum.of("file", file.name()),
                  Datum.count("length", text.length(), "character"),
                  Datum.of("most", LONGEST))
              .because("nobody writes so long a rulebook, so it is likely to be something else.")
              .help("give an .aspects file, or split this one and join the parts with use."));
    }
    for (int i = 0; i < text.length(); ) {
      int character = text.codePointAt(i);
      if (!isText(character)) {
        return Optional.of(
            Diagnostic.error(
                    "not-text",
                    Tier.SYNTAX,
                    file.span(i, i + 1),
                    "{file} is not a text: it holds the character {character}",
                    Datum.of("file", file.name()),
                    Datum.of("character", Visible.codePoint(character)))
                .because("no editor writes that into a text, so it is likely to be something else.")
                .help("give an .aspects file, or save this one again as UTF-8 text."));
      }
      i += Character.charCount(character);
    }
    return Optional.empty();
  }

  private static boolean isText(int character) {
    boolean space = character >= '\t' && character <= '\r';
    boolean half = character >= Character.MIN_SURROGATE && character <= Character.MAX_SURROGATE;
    return space || !(Character.isISOControl(character) || half);
  }
}
