package dev.doublet.check.letters;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A word in which letters of another alphabet stand for Latin ones: among Latin ones, or all
 * through where a Latin word looks the same.
 */
public final class LookAlikeLetters implements Check.OfTexts {
  private static final int MOST_PLACES = 3;

  @Override
  public List<Diagnostic> find(List<SourceFile> texts) {
    Map<String, List<Span>> foreign = new LinkedHashMap<>();
    texts.stream()
        .filter(file -> !isLatin(file.text()))
        .flatMap(file -> words(file).stream())
        .filter(word -> !isLatin(word.text()))
        .forEach(w -> foreign.computeIfAbsent(w.text(), t -> new ArrayList<>()).add(w));
    if (foreign.isEmpty()) {
      return List.of();
    }
    Map<String, Span> latin = new HashMap<>();
    texts.stream()
        .flatMap(file -> words(file).stream())
        .filter(word -> isLatin(word.text()))
        .forEach(word -> latin.putIfAbsent(Lookalikes.shape(word.text()), word));
    List<Diagnostic> found = new ArrayList<>();
    foreign.forEach((word, places) -> judge(word, places, latin).ifPresent(found::add));
    return found;
  }

  private Optional<Diagnostic> judge(String word, List<Span> places, Map<String, Span> latin) {
    List<Integer> odd = word.codePoints().distinct().filter(Lookalikes::isOne).boxed().toList();
    if (odd.isEmpty()) {
      return Optional.empty();
    }
    if (word.codePoints().anyMatch(c -> c <= Lookalikes.LATIN && Character.isLetter(c))) {
      List<String> letters =
          odd.stream()
              .map(c -> Words.say("U+%04X for %s", c, Lookalikes.shape(Character.toString(c))))
              .toList();
      return Optional.of(
          tell(
              places,
              Words.say("\"%s\" is not all Latin letters: it has %s", word, Words.list(letters))));
    }
    Span other = latin.get(Lookalikes.shape(word));
    boolean same = other != null && word.codePointCount(0, word.length()) > 1;
    return same
        ? Optional.of(
            tell(
                    places,
                    Words.say(
                        "\"%s\" looks like \"%s\", and is written with other letters",
                        word, other.text()))
                .word("looks like", other.text())
                .related(other, "in Latin letters"))
        : Optional.empty();
  }

  private Diagnostic tell(List<Span> places, String message) {
    Diagnostic diagnostic =
        finding(Severity.WARNING, places.get(0), message)
            .about(List.of(places.get(0).text()))
            .words(
                "letters",
                places
                    .get(0)
                    .text()
                    .codePoints()
                    .filter(Lookalikes::isOne)
                    .distinct()
                    .mapToObj(c -> Words.say("U+%04X", c))
                    .toList());
    for (Span place : places.subList(1, Math.min(places.size(), MOST_PLACES))) {
      diagnostic = diagnostic.related(place, "again");
    }
    return (places.size() > MOST_PLACES
            ? diagnostic.fact("in all", Words.count(places.size(), "place"))
            : diagnostic)
        .because("two names that look the same would be two")
        .help("write it with the letters of one alphabet");
  }

  private static boolean isLatin(String text) {
    return text.chars().allMatch(c -> c <= Lookalikes.LATIN);
  }

  /** Runs of letters, digits and their marks. */
  private static List<Span> words(SourceFile file) {
    List<Span> words = new ArrayList<>();
    String text = file.text();
    int start = 0;
    for (int i = 0; i <= text.length(); ) {
      int character = i < text.length() ? text.codePointAt(i) : ' ';
      if (!isOfWord(character)) {
        if (i > start) {
          words.add(file.span(start, i));
        }
        start = i + Character.charCount(character);
      }
      i += Character.charCount(character);
    }
    return words;
  }

  private static boolean isOfWord(int character) {
    int type = Character.getType(character);
    return Character.isLetterOrDigit(character)
        || Lookalikes.isOne(character)
        || type == Character.NON_SPACING_MARK
        || type == Character.COMBINING_SPACING_MARK;
  }
}
