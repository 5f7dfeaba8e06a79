package dev.doublet.table;

/** How names are compared: in any case of A to Z, and whatever white space stands around them. */
final class NameFolding {
  private NameFolding() {}

  static String of(String name) {
    int first = 0;
    int end = name.length();
    while (first < end && isSpace(name.charAt(first))) {
      first++;
    }
    while (end > first && isSpace(name.charAt(end - 1))) {
      end--;
    }
    StringBuilder folded = new StringBuilder();
    for (char c : name.substring(first, end).toCharArray()) {
      folded.append(c >= 'A' && c <= 'Z' ? (char) (c + 'a' - 'A') : c);
    }
    return folded.toString();
  }

  private static boolean isSpace(char c) {
    return c == ' ' || c >= '\t' && c <= '\r';
  }
}
