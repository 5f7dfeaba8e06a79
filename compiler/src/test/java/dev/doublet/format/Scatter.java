package dev.doublet.format;

import java.util.List;
import java.util.Random;
import java.util.regex.MatchResult;

/** White space and comments by chance, wherever the grammar lets them stand. */
final class Scatter {
  private static final List<String> SPACES =
      List.of(
          " ",
          " ",
          " ",
          "  ",
          "\t",
          "\n",
          "\n",
          "\r\n",
          "\r",
          "\n\n\n",
          "\u00A0",
          "\uFEFF",
          "\u000B",
          "\f",
          " ".repeat(40),
          "\n\t  \n");
  private static final List<String> BLANKS = List.of(" ", "\t", "   ", "\u00A0\u00A0", " \t ");
  private static final List<String> COMMENTS =
      List.of(
          "#",
          "# note",
          "# \ud83d\udea6 \" { } , ",
          "#\ttab   ",
          "# aspect \"A\" {",
          "#\u00A0x\u00A0");
  private static final List<String> ENDS = List.of("\n", "\r\n", "\r", "\n\n");

  private final Random random;

  Scatter(long start) {
    this.random = new Random(start);
  }

  /** Declarations as one text, any white space before, between and behind their words. */
  String text(List<List<String>> declarations) {
    StringBuilder text = new StringBuilder(space(false));
    String before = "{";
    for (List<String> words : declarations) {
      for (String word : words) {
        boolean apart = isWord(before) && isWord(word);
        text.append(text.length() == 0 ? "" : space(apart)).append(word);
        before = word;
      }
      text.append(random.nextInt(3) == 0 ? "" : "\n");
    }
    return text.append(space(false)).toString();
  }

  private String space(boolean needed) {
    StringBuilder space = new StringBuilder();
    for (int i = random.nextInt(3) + (needed ? 1 : 0); i > 0; i--) {
      space.append(random.nextInt(8) == 0 ? oneOf(COMMENTS) + oneOf(ENDS) : oneOf(SPACES));
    }
    return space.toString();
  }

  private static boolean isWord(String word) {
    return !"{}(),".contains(word) && !word.startsWith("\"");
  }

  /** The same text with other blanks in its lines. */
  String blanks(String text) {
    StringBuilder other = new StringBuilder();
    int end = 0;
    for (MatchResult piece : Pieces.found(text)) {
      other.append(gap(text.substring(end, piece.start()))).append(piece.group());
      end = piece.end();
    }
    return other.append(gap(text.substring(end))).toString();
  }

  private String gap(String gap) {
    String ends = gap.replace(" ", "");
    if (ends.isEmpty()) {
      return gap.isEmpty() ? "" : oneOf(BLANKS);
    }
    return oneOf(BLANKS) + ends.replace("\n", "\n" + oneOf(BLANKS));
  }

  /** A part of some things, in order. */
  <T> List<T> some(List<T> all) {
    return all.stream().filter(one -> random.nextBoolean()).toList();
  }

  private String oneOf(List<String> texts) {
    return texts.get(random.nextInt(texts.size()));
  }
}
