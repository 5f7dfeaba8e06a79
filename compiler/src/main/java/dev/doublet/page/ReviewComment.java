package dev.doublet.page;

import dev.doublet.chart.Markdown;
import dev.doublet.diagnostic.Words;
import dev.doublet.diff.Changes;
import dev.doublet.diff.ChangesText;
import dev.doublet.diff.Consequence;
import dev.doublet.diff.Event;
import dev.doublet.diff.Sight;
import dev.doublet.source.Visible;
import java.util.List;
import java.util.Optional;

/**
 * Changes as a comment for a review. Forges show no drawings in comments, so pictures are coloured
 * discs with words. The first line is hidden and always the same: by it, whoever posts the comment
 * finds the earlier one and replaces it. The fingerprint tells to which changes an approval was
 * given.
 */
public final class ReviewComment {
  /** The first line of every comment. */
  public static final String MARK = "<!-- doublet diff -->";

  /** More than this nobody reads in a comment. */
  private static final int MOST = 40;

  private static final int LONGEST = 300;

  private final Gallery gallery = new Gallery();
  private final StringBuilder text = new StringBuilder();

  private ReviewComment() {}

  /** The comment in Markdown. */
  public static String of(Changes changes) {
    return new ReviewComment().write(changes);
  }

  private String write(Changes changes) {
    text.append(MARK).append('\n');
    text.append("<!-- fingerprint ").append(changes.fingerprint()).append(" -->\n");
    text.append("### What changes for signals\n\n");
    text.append(ChangesText.line(changes)).append('\n');
    int left = MOST;
    for (Consequence consequence : Consequence.values()) {
      List<Event> events = changes.of(consequence);
      if (!events.isEmpty()) {
        listed(consequence, events, left);
        left -= Math.min(left, events.size());
      }
    }
    if (!changes.events().isEmpty()) {
      text.append("\nFingerprint `").append(changes.fingerprint());
      text.append("`: an approval that was given to another one was given to other changes.\n");
    }
    return text.toString();
  }

  private void listed(Consequence consequence, List<Event> events, int most) {
    text.append("\n#### ").append(ChangesText.capital(consequence.words())).append("\n\n");
    int shown = Math.min(most, events.size());
    if (shown > 0) {
      text.append("| what | was | is |\n| --- | --- | --- |\n");
      events.subList(0, shown).forEach(this::row);
    }
    if (shown < events.size()) {
      text.append(shown > 0 ? "\n" : "");
      text.append(Words.say("%,d more; `doublet diff` lists them.\n", events.size() - shown));
    }
  }

  private void row(Event event) {
    String note = event.how().isEmpty() ? "" : " (" + plain(event.how()) + ")";
    text.append("| ").append(cell(plain(event.sentence()) + note)).append(" `");
    text.append(event.sort().word()).append("` in ").append(cell(plain(event.file())));
    text.append(" | ").append(cell(side(event.sightBefore(), event.before())));
    text.append(" | ").append(cell(side(event.sightAfter(), event.after()))).append(" |\n");
  }

  private String side(Optional<Sight> sight, String words) {
    String said = words.isEmpty() ? "" : plain(words);
    return sight.map(s -> gallery.discs(s) + (said.isEmpty() ? "" : " " + said)).orElse(said);
  }

  /** Words as they are: nobody is called, nothing is linked, and nothing is marked by them. */
  private static String plain(String words) {
    String line = Visible.line(words);
    String cut = line.length() > LONGEST ? line.substring(0, LONGEST) + "…" : line;
    boolean links = cut.indexOf('#') >= 0 || cut.contains("GH-");
    return links ? Markdown.code(cut) : Markdown.text(cut);
  }

  private static String cell(String markdown) {
    return markdown.replace("|", "\\|");
  }
}
