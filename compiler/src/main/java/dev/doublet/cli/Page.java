package dev.doublet.cli;

/**
 * What there is to say about one kind of finding.
 *
 * @param name the finding's name
 * @param text the whole page, in Markdown
 */
record Page(String name, String text) {

  /** The sentence under the title. */
  String summary() {
    return text.lines().skip(1).filter(l -> !l.isBlank()).findFirst().orElse("");
  }
}
