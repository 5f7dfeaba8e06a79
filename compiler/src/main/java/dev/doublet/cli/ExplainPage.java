package dev.doublet.cli;

import java.util.Locale;

/**
 * What there is to say about one kind of finding.
 *
 * @param name the finding's name
 * @param text the whole page, in Markdown
 */
record ExplainPage(String name, String text) {

  /** Its name and what it finds, for a list. */
  String line() {
    return String.format(Locale.ROOT, "%-26s %s\n", name, summary());
  }

  /** The sentence under the title. */
  String summary() {
    return text.lines().skip(1).filter(l -> !l.isBlank()).findFirst().orElse("");
  }
}
