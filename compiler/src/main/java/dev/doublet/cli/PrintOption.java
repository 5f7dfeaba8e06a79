package dev.doublet.cli;

import picocli.CommandLine.Option;

/** How a list that is made to be printed is written. */
final class PrintOption {

  /** The ways. */
  enum Format {
    text,
    markdown,
    csv,
    html
  }

  @Option(
      names = "--as",
      paramLabel = "FORMAT",
      description = "text (as usual), markdown, csv, or html to print on A4 or Letter")
  private Format as = Format.text;

  Format as() {
    return as;
  }
}
