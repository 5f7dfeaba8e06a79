package dev.doublet.syntax;

import dev.doublet.grammar.AspectsLexer;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.misc.IntervalSet;

/** The words of the language by kind, and how to speak of them. */
final class Vocabulary {
  /** Words that begin a declaration, and nothing else anywhere. */
  static final Set<Integer> DECLARATIONS =
      Set.of(
          AspectsLexer.RULEBOOK,
          AspectsLexer.USE,
          AspectsLexer.SPEEDS,
          AspectsLexer.NUMBERS,
          AspectsLexer.COLOURS,
          AspectsLexer.RHYTHMS,
          AspectsLexer.HEAD,
          AspectsLexer.ARM,
          AspectsLexer.FORM,
          AspectsLexer.PLATE,
          AspectsLexer.ASPECT,
          AspectsLexer.IMPERFECT,
          AspectsLexer.COVER,
          AspectsLexer.COUNT,
          AspectsLexer.ACCEPT,
          AspectsLexer.EXPECT);

  /** Words that begin a fact of an aspect. */
  static final Set<Integer> ASPECT_FACTS =
      Set.of(
          AspectsLexer.WAS,
          AspectsLexer.RULE,
          AspectsLexer.NUMBER_WORD,
          AspectsLexer.INDICATES,
          AspectsLexer.ALLOWS,
          AspectsLexer.ON,
          AspectsLexer.AS);

  /** Words that begin a fact of a head. */
  static final Set<Integer> HEAD_FACTS = Set.of(AspectsLexer.LAMP, AspectsLexer.FIGURE);

  /** Words that are also names wherever that leaves no doubt. */
  private static final Set<Integer> SOFT =
      Set.of(
          AspectsLexer.EDITION,
          AspectsLexer.EFFECTIVE,
          AspectsLexer.MPH,
          AspectsLexer.TIMES,
          AspectsLexer.UP,
          AspectsLexer.MAXIMUM,
          AspectsLexer.UNRANKED,
          AspectsLexer.SIGHT,
          AspectsLexer.PER,
          AspectsLexer.MINUTE,
          AspectsLexer.PERCENT,
          AspectsLexer.LINE,
          AspectsLexer.STAGGERED,
          AspectsLexer.DWARF,
          AspectsLexer.BRACKET,
          AspectsLexer.AT,
          AspectsLexer.THE,
          AspectsLexer.SECOND,
          AspectsLexer.SIGNAL,
          AspectsLexer.SIGNALS,
          AspectsLexer.READ,
          AspectsLexer.MOST,
          AspectsLexer.RESTRICTIVE,
          AspectsLexer.FITTING,
          AspectsLexer.ERRORS,
          AspectsLexer.WAS,
          AspectsLexer.RULE,
          AspectsLexer.NUMBER_WORD,
          AspectsLexer.INDICATES,
          AspectsLexer.LIT,
          AspectsLexer.MORE_WORD,
          AspectsLexer.LESS_WORD,
          AspectsLexer.THAN,
          AspectsLexer.NO,
          AspectsLexer.KNOWN,
          AspectsLexer.ORDER,
          AspectsLexer.STARTING,
          AspectsLexer.FILAMENT,
          AspectsLexer.VANE,
          AspectsLexer.REDUCING,
          AspectsLexer.TO,
          AspectsLexer.BEFORE,
          AspectsLexer.AFTER,
          AspectsLexer.WHERE,
          AspectsLexer.ALONE,
          AspectsLexer.ELSE,
          AspectsLexer.SHORT,
          AspectsLexer.DISTANCE,
          AspectsLexer.ARM);

  /** What speeds are counted in. */
  static final Set<String> UNITS = Set.of("mph", "km/h");

  private static final Map<String, Integer> WORDS = words();

  private Vocabulary() {}

  /** Every word of the language. */
  static Set<String> all() {
    return WORDS.keySet();
  }

  /**
   * The unit of speed that a word means by its letters, in any order and case. A unit that is only
   * spelt nearly alike is another: kph is no misspelling of mph.
   */
  static Optional<String> unit(String word) {
    String letters =
        word.toLowerCase(Locale.ROOT)
            .chars()
            .filter(Character::isLetter)
            .distinct()
            .sorted()
            .mapToObj(Character::toString)
            .collect(Collectors.joining());
    return switch (letters) {
      case "hmp" -> Optional.of("mph");
      case "hkm", "hkp", "hkmp" -> Optional.of("km/h");
      default -> Optional.empty();
    };
  }

  /** The kind of a word of the language; empty for any other text. */
  static Optional<Integer> kind(String word) {
    return Optional.ofNullable(WORDS.get(word));
  }

  /** True for a word that is never a name. */
  static boolean isReserved(Token token) {
    return WORDS.containsKey(token.getText()) && !SOFT.contains(token.getType());
  }

  /** True for a name or a word of the language. */
  static boolean isWord(Token token) {
    return token.getType() == AspectsLexer.NAME || WORDS.containsKey(token.getText());
  }

  /** True when all words of a kind are written alike. */
  static boolean isFixed(int kind) {
    return AspectsLexer.VOCABULARY.getLiteralName(kind) != null;
  }

  /** True for braces and brackets. */
  static boolean isBracket(Token token) {
    int kind = token.getType();
    return kind >= AspectsLexer.OPEN && kind <= AspectsLexer.RIGHT;
  }

  /** The kinds of word worth trying where some are expected: of names, one will do. */
  static List<Integer> kinds(IntervalSet expected) {
    boolean name = expected.contains(AspectsLexer.NAME);
    return IntStream.of(expected.toArray())
        .filter(kind -> kind > 0 && !(name && SOFT.contains(kind)))
        .boxed()
        .toList();
  }

  /** How such a word would be written; a made-up one where the author has the choice. */
  static String sample(int kind) {
    return switch (kind) {
      case AspectsLexer.NAME -> "x";
      case AspectsLexer.STRING -> "\"\"";
      case AspectsLexer.NUMBER -> "1";
      case AspectsLexer.DATE -> "2000-01-01";
      case AspectsLexer.CLAUSE -> "1.1";
      default -> literal(kind);
    };
  }

  /** What is expected, as one of several: {@code a name or "shows"}. */
  static String describe(IntervalSet expected) {
    List<String> parts = parts(expected);
    int last = parts.size() - 1;
    return last <= 0
        ? String.join("", parts)
        : String.join(", ", parts.subList(0, last)) + " or " + parts.get(last);
  }

  /** Each thing that is expected, for people: {@code a name}, {@code "shows"}. */
  static List<String> parts(IntervalSet expected) {
    List<String> parts = new ArrayList<>();
    List<Integer> kinds = new ArrayList<>(kinds(expected));
    boolean name = kinds.remove((Integer) AspectsLexer.NAME);
    if (name) {
      kinds.remove((Integer) AspectsLexer.NUMBER);
    }
    if (expected.contains(AspectsLexer.STOP)) {
      // Among the movements: a letter for a number is the last that is thought of.
      kinds.remove((Integer) AspectsLexer.OPEN);
    }
    boolean afterDisplay = false;
    if (kinds.remove((Integer) AspectsLexer.ANY)) {
      parts.add("a display");
      kinds.removeAll(Set.of(AspectsLexer.DARK, AspectsLexer.LEFT, AspectsLexer.OPEN));
    } else {
      afterDisplay = kinds.contains(AspectsLexer.OVER) && kinds.remove((Integer) AspectsLexer.DARK);
      if (name && !afterDisplay) {
        parts.add("a name");
      }
    }
    boolean declaration = kinds.removeAll(DECLARATIONS) || expected.contains(Token.EOF);
    boolean aspectFact =
        expected.contains(AspectsLexer.ALLOWS) && expected.contains(AspectsLexer.INDICATES);
    if (aspectFact) {
      kinds.removeAll(ASPECT_FACTS);
    }
    boolean headFact = kinds.removeAll(HEAD_FACTS);
    boolean close = kinds.remove((Integer) AspectsLexer.CLOSE);
    if (kinds.size() > 1 || !parts.isEmpty() || close) {
      kinds.remove((Integer) AspectsLexer.COMMA);
    }
    kinds.forEach(kind -> parts.add(describe(kind)));
    if (aspectFact) {
      parts.add("a fact of the aspect");
    }
    if (headFact) {
      parts.addAll(List.of("a lamp", "a figure"));
    }
    if (declaration) {
      parts.add("a declaration");
    }
    if (close) {
      parts.add("\"}\"");
    }
    return parts;
  }

  private static String describe(int kind) {
    return switch (kind) {
      case AspectsLexer.STRING -> "a text in quotation marks";
      case AspectsLexer.NUMBER -> "a whole number";
      case AspectsLexer.DATE -> "a date such as 1957-06-01";
      case AspectsLexer.CLAUSE -> "a number such as 9.1.3";
      default -> "\"" + literal(kind) + "\"";
    };
  }

  private static String literal(int kind) {
    String quoted = AspectsLexer.VOCABULARY.getLiteralName(kind);
    return quoted.substring(1, quoted.length() - 1);
  }

  private static Map<String, Integer> words() {
    return IntStream.rangeClosed(1, AspectsLexer.VOCABULARY.getMaxTokenType())
        .filter(kind -> AspectsLexer.VOCABULARY.getLiteralName(kind) != null)
        .filter(kind -> Character.isLetter(literal(kind).charAt(0)))
        .boxed()
        .collect(Collectors.toMap(Vocabulary::literal, k -> k, (a, b) -> a, TreeMap::new));
  }
}
