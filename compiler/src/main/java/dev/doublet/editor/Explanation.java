package dev.doublet.editor;

import dev.doublet.layout.read.KeyGuide;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.Mention;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlCursor;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * What is said of the word at a place.
 *
 * @param place the word
 * @param parts paragraphs and lists of lines, the word itself first
 */
public record Explanation(Span place, List<String> parts) {

  /** Copies the list. */
  public Explanation {
    parts = List.copyOf(parts);
  }

  /** Of the word at a place; empty where there is nothing to say. */
  public static Optional<Explanation> at(Root root, SourceFile file, int offset) {
    Optional<Mention> name = root.nameAt(file, offset);
    if (name.isPresent()) {
      List<String> known = new Meanings(root).full(name.get().kind(), name.get().name());
      List<String> parts = known.isEmpty() ? asDeclared(root, name.get()) : known;
      return parts.isEmpty()
          ? Optional.empty()
          : Optional.of(new Explanation(name.get().span(), parts));
    }
    Span word = word(file, offset);
    return LayoutResolver.isLayout(file.name())
        ? address(root, file, offset).or(() -> key(file, word))
        : word(word);
  }

  /** What a layout declares in a few lines is told by them. */
  private static List<String> asDeclared(Root root, Mention name) {
    return switch (name.kind()) {
      case KIND, BUS, LED, CHIP, SUPPLY ->
          root.declarations(name).stream()
              .flatMap(declared -> Outline.at(declared.span()).stream())
              .map(Explanation::lines)
              .toList();
      default -> List.of();
    };
  }

  /** As written, without the blanks that all lines begin with. */
  private static String lines(Outline outline) {
    Span whole = outline.whole();
    return (" ".repeat(whole.from().column() - 1) + whole.text()).stripIndent().strip();
  }

  /** An address says what its signal answers to, as users count it and as packets carry it. */
  private static Optional<Explanation> address(Root root, SourceFile file, int offset) {
    Span word = word(file, offset);
    YamlCursor cursor = YamlCursor.at(file, word.start());
    boolean address =
        cursor.value() && cursor.steps().stream().anyMatch(s -> s.startsWith("address"));
    return address
        ? Outline.signalAt(file, offset)
            .map(name -> new Meanings(root).full(Mention.Kind.SIGNAL, name))
            .filter(parts -> !parts.isEmpty())
            .map(parts -> new Explanation(word, parts))
        : Optional.empty();
  }

  private static Optional<Explanation> word(Span word) {
    String help = WordHelp.of(word.text());
    return help.isEmpty()
        ? Optional.empty()
        : Optional.of(new Explanation(word, List.of(word.text() + ": " + help)));
  }

  private static Optional<Explanation> key(SourceFile file, Span word) {
    YamlCursor cursor = YamlCursor.at(file, word.start());
    if (cursor.value() || word.start() == word.end()) {
      return Optional.empty();
    }
    List<String> steps = new ArrayList<>(cursor.steps());
    steps.add(word.text());
    return KeyGuide.key(steps)
        .map(
            key ->
                new Explanation(
                    word, List.of(key.name() + ": " + key.help(), "Takes " + key.takes() + ".")));
  }

  private static Span word(SourceFile file, int offset) {
    String text = file.text();
    int start = offset;
    while (start > 0 && isOfWord(text.charAt(start - 1))) {
      start--;
    }
    int end = offset;
    while (end < text.length() && isOfWord(text.charAt(end))) {
      end++;
    }
    return file.span(start, end);
  }

  private static boolean isOfWord(char c) {
    return Character.isLetterOrDigit(c) || c == '-' || c == '/';
  }
}
