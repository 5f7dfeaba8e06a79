package dev.doublet.page;

import dev.doublet.diagnostic.Words;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * A rulebook's aspect chart: every aspect with its name, rule, indication and permission, and what
 * it looks like on each form, as one page that needs nothing else, as Markdown, and picture by
 * picture.
 */
public final class AspectChart {
  private static final String CSS =
      """
      :root{color-scheme:light dark;--ground:#fff;--ink:#1f2328;--line:#8c959f;--soft:#57606a}
      @media(prefers-color-scheme:dark){:root{--ground:#16181c;--ink:#e6e8eb;--line:#6e7681;--soft:#a3abb5}}
      body{margin:0 auto;max-width:72rem;padding:1rem;font:16px/1.45 system-ui,sans-serif;background:var(--ground);color:var(--ink);overflow-wrap:anywhere}
      h1{font-size:1.5rem;margin:.3rem 0}h2{font-size:1.2rem;margin:1.6rem 0 .4rem}h3{margin:0;font-size:1.05rem}
      p{margin:.25rem 0}.soft{color:var(--soft)}
      .aspect{border-top:1px solid var(--line);padding:.8rem 0;display:grid;grid-template-columns:minmax(12rem,17rem) 1fr;gap:1.5rem;break-inside:avoid}
      .looks{display:flex;flex-wrap:wrap;gap:.6rem 1.2rem;align-items:flex-end}
      figure{margin:0;text-align:center;max-width:9.5rem}figcaption{font-size:.85rem;line-height:1.3;min-height:3.9em}
      figcaption strong{display:block;font-weight:600}
      .picture{max-width:100%;height:auto}
      .scroll{overflow-x:auto}
      table{border-collapse:collapse}td,th{border:1px solid var(--line);padding:.2rem .5rem;text-align:left}
      .sample{display:inline-block;width:1rem;height:1rem;border-radius:50%;border:1px solid var(--line);vertical-align:-.15rem}
      body:has(#still:checked) .lit{animation:none}
      @media(max-width:40rem){.aspect{grid-template-columns:1fr;gap:.6rem}}
      @media print{:root{--ground:#fff;--ink:#000;--line:#888;--soft:#333}body{max-width:none;padding:0;font-size:10pt}.control{display:none}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}
      @page{margin:12mm}
      """;

  /**
   * Which ways of drawing are the trade's: that signals are drawn from the front with the top head
   * first, dark lamps left empty and heads of a staggered signal on both sides of the mast, and
   * that letters, hatching and rays are usual in print, is common practice, from memory.
   */
  private static final String DRAWN =
      """
      <h2>How it is drawn</h2>
      <p class="soft">As rulebooks do: signals are seen from the front, as the crew of an approaching train sees them, the top
      head first; lamps that are dark are drawn empty; heads of a staggered signal stand on both sides of the mast; a dwarf
      has no mast; plates hang below the heads; numbers light up in one window, and are not seen in it while they are dark. Lenses and the spacing of lamps in a head are in proportion: 8 3/8 inches on
      high signals and 6 3/8 on dwarfs (AREMA C&amp;S Manual, part 7.1.1), 300 mm from lamp to lamp.</p>
      <p class="soft">Not as rulebooks do: many print letters or hatching for colours, and rays around a lamp that flashes.
      Here colours are those that LEDs shine, words stand below each picture, and a broken ring marks a lamp that flashes.
      Heads stand closer together than on a mast, shapes of heads, masts and plates are the same for every railway, and
      where a head is of no certain make one is drawn that can show all that its place ever shows.</p>
      """;

  private AspectChart() {}

  /**
   * The chart as one HTML page.
   *
   * @param gaps what is wrong with the sequence
   */
  public static String html(Rulebook book, List<Gap> gaps) {
    Inks inks = Inks.of(book);
    Flashing flashing = Flashing.of(book);
    Makes makes = Makes.of(book);
    PictureDrawing.Stock stock = new PictureDrawing.Stock();
    StringBuilder page = new StringBuilder();
    page.append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    page.append("<meta name=\"viewport\" content=\"width=device-width\">\n");
    page.append("<meta name=\"generator\" content=\"Doublet aspect chart\">\n");
    page.append("<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';");
    page.append(" style-src 'unsafe-inline'\">\n<title>Aspects of ").append(Xml.text(book.title()));
    page.append("</title>\n<style>\n").append(CSS).append(PictureDrawing.css(flashing));
    page.append(SequenceDrawing.css()).append("</style>\n</head>\n<body>\n<main>\n<h1>Aspects of ");
    page.append(Xml.text(book.title())).append("</h1>\n<p class=\"soft\">").append(edition(book));
    page.append(". For model railways only; not for full-size railways.</p>\n");
    if (!book.rhythms().isEmpty()) {
      page.append("<p class=\"control\"><label><input type=\"checkbox\" id=\"still\">");
      page.append(" Let lamps that flash stand still</label></p>\n");
      page.append("<p class=\"soft\">A broken ring marks a lamp that flashes.");
      page.append(slowed(book)).append("</p>\n");
    }
    page.append("<h2>Aspects</h2>\n");
    book.aspects().forEach(aspect -> page.append(section(makes, aspect, inks, flashing, stock)));
    page.append(
        "<h2 id=\"sequence\">Sequence</h2>\n<p class=\"soft\">The least restrictive on top. An arrow leads");
    page.append(
        " from an aspect to those that permit exactly what it announces for the next signal;");
    page.append(
        " less restrictive ones may stand there too.</p>\n<div class=\"scroll\" tabindex=\"0\"");
    page.append(" role=\"region\" aria-label=\"Aspect sequence chart\">");
    page.append(SequenceDrawing.of(book, gaps)).append("</div>\n");
    page.append(colours(inks))
        .append(DRAWN)
        .append(stock.drawn())
        .append("</main>\n</body>\n</html>\n");
    return page.toString();
  }

  private static String section(
      Makes makes, Aspect aspect, Inks inks, Flashing flashing, PictureDrawing.Stock stock) {
    StringBuilder section = new StringBuilder("<section class=\"aspect\"><div><h3>");
    section.append(Xml.text(aspect.name())).append("</h3>");
    section.append(line(String.join(", ", figures(aspect)), !figures(aspect).isEmpty()));
    section.append(line(aspect.indication(), !aspect.indication().isEmpty()));
    section.append(line("Allows " + aspect.permission().words(), true));
    section.append(aspect.numerals().isOpen() ? line(numerals(aspect), true) : "");
    section.append("</div><div class=\"looks\">");
    for (Pattern pattern : aspect.patterns()) {
      SignalPicture shown = SignalPicture.of(makes, pattern);
      section.append("<figure>").append(PictureDrawing.inPage(shown, inks, flashing, stock));
      section.append("<figcaption><strong>").append(Xml.text(shown.built())).append("</strong> ");
      section.append(Xml.text(shown.words())).append("</figcaption></figure>");
    }
    return section.append("</div></section>\n").toString();
  }

  private static String line(String words, boolean said) {
    return said ? "<p>" + Xml.text(words) + "</p>" : "";
  }

  /** What an aspect is filed under. */
  private static List<String> figures(Aspect aspect) {
    List<String> figures = new ArrayList<>();
    if (!aspect.rule().isEmpty()) {
      figures.add("Rule " + aspect.rule());
    }
    if (aspect.number() != Aspect.NO_NUMBER) {
      figures.add((figures.isEmpty() ? "Number " : "number ") + aspect.number());
    }
    if (aspect.number() != Aspect.NO_NUMBER && aspect.numerals().isOpen()) {
      figures.set(figures.size() - 1, figures.get(figures.size() - 1) + " up");
    }
    return figures;
  }

  /** What the letters of an aspect stand for. */
  private static String numerals(Aspect aspect) {
    List<String> letters = aspect.numerals().letters().stream().map(l -> "{" + l + "}").toList();
    List<String> numbers =
        aspect.numerals().numbers().figures().stream().map(n -> Integer.toString(n)).toList();
    return Words.list(letters)
        + (letters.size() > 1 ? " are each one of " : " is one of ")
        + Words.list(numbers)
        + "; drawn is "
        + numbers.get(0);
  }

  private static String edition(Rulebook book) {
    String since = book.effective().isEmpty() ? "" : ", effective " + Xml.text(book.effective());
    return "Edition " + book.edition() + since;
  }

  private static String slowed(Rulebook book) {
    String names =
        book.rhythms().stream()
            .filter(Flashing::isSlowed)
            .map(Rhythm::name)
            .collect(Collectors.joining(", "));
    return names.isEmpty()
        ? ""
        : " Played slower than the book says, so that nothing flashes more than three times a second: "
            + Xml.text(names)
            + ".";
  }

  private static String colours(Inks inks) {
    StringBuilder table =
        new StringBuilder("<h2>Colours</h2>\n<p class=\"soft\">The light of LEDs ");
    table.append(Xml.text(inks.family().name())).append(" from the middle of the maker's bins,");
    table.append(
        " driven for the book's colours; CIE 1931 x and y. A layout says which LEDs it has.");
    table.append(
        "</p>\n<table><tr><th>colour</th><th>x</th><th>y</th><th>on this screen</th></tr>\n");
    inks.byColour()
        .forEach(
            (name, ink) ->
                table
                    .append("<tr><td>")
                    .append(Xml.text(name))
                    .append("</td><td>")
                    .append(three(ink.light().x()))
                    .append("</td><td>")
                    .append(three(ink.light().y()))
                    .append("</td><td><span class=\"sample\" style=\"background:")
                    .append(ink.screen().hex())
                    .append("\"></span> ")
                    .append(honesty(ink))
                    .append("</td></tr>\n"));
    return table.append("</table>\n").toString();
  }

  private static String honesty(Inks.Ink ink) {
    return ink.screen().within()
        ? "as it is, but for brightness"
        : "paler than it is: no screen of sRGB shows it";
  }

  private static String three(double value) {
    return String.format(Locale.ROOT, "%.3f", value);
  }

  /** The chart as Markdown, with coloured discs and words for pictures. */
  public static String markdown(Rulebook book) {
    Inks inks = Inks.of(book);
    Makes makes = Makes.of(book);
    StringBuilder page = new StringBuilder();
    page.append("# Aspects of ").append(plain(book.title())).append("\n\n");
    page.append(edition(book)).append(". For model railways only; not for full-size railways.\n\n");
    page.append("A disc stands for the signal colour in whose published region the light of LEDs");
    page.append(" lies; \u26ab is a head that is dark. The words say what flashes.\n");
    for (Aspect aspect : book.aspects()) {
      page.append("\n## ").append(plain(aspect.name())).append("\n\n");
      List<String> said = new ArrayList<>();
      if (!figures(aspect).isEmpty()) {
        said.add(plain(String.join(", ", figures(aspect))) + ".");
      }
      if (!aspect.indication().isEmpty()) {
        said.add(plain(aspect.indication()));
      }
      said.add("Allows " + plain(aspect.permission().words()) + ".");
      if (aspect.numerals().isOpen()) {
        said.add(plain(numerals(aspect)) + ".");
      }
      page.append(String.join(" ", said)).append("\n\n");
      page.append("| form | shows | in words |\n| --- | --- | --- |\n");
      for (Pattern pattern : aspect.patterns()) {
        SignalPicture shown = SignalPicture.of(makes, pattern);
        page.append("| ").append(plain(shown.built())).append(" | ").append(Disc.of(shown, inks));
        page.append(" | ").append(plain(shown.words())).append(" |\n");
      }
    }
    return page.toString();
  }

  /** Words that Markdown takes for words: no link, no tag, no end of a cell. */
  private static String plain(String words) {
    return Visible.line(words)
        .replaceAll("([\\\\`*_{}\\[\\]#|!~])", "\\\\$1")
        .replace("&", "&amp;")
        .replace("<", "&lt;")
        .replace(">", "&gt;");
  }

  /** One picture as a file of its own; empty when the aspect has no pattern for the form. */
  public static Optional<String> svg(Rulebook book, Aspect aspect, Form form) {
    return aspect.patternsOn(form).stream()
        .findFirst()
        .map(aspect::shownBy)
        .map(
            pattern ->
                PictureDrawing.alone(
                    SignalPicture.of(Makes.of(book), pattern), Inks.of(book), Flashing.of(book)));
  }
}
