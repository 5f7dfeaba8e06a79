package dev.doublet.report;

import dev.doublet.report.Findings.Finding;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.UnaryOperator;
import java.util.regex.Pattern;

/**
 * Findings that were there when somebody began to look at new ones only. Each is a line of its
 * file, its name and its fingerprint, so that it stays known when lines move.
 *
 * @param known the lines, sorted
 */
public record Baseline(Set<String> known) {
  /** The first line of every file of a baseline. */
  public static final String TITLE = "# Findings that doublet check --baseline leaves out.";

  /** The last line, so that a file that was cut off is known; lines between may go or be joined. */
  private static final String END = "# That is all of them.";

  private static final Pattern LINE = Pattern.compile("\\S+ [a-z-]+ [0-9a-f]{16}(-[0-9]+)?");

  /** Sorts the lines. */
  public Baseline {
    known = new TreeSet<>(known);
  }

  /**
   * The errors and warnings of a run.
   *
   * @param path how the baseline names a file
   */
  public static Baseline of(Findings findings, UnaryOperator<String> path) {
    Set<String> known = new TreeSet<>();
    findings.all().stream()
        .filter(f -> f.said().isFinding())
        .forEach(f -> known.add(line(f, path)));
    return new Baseline(known);
  }

  /**
   * Reads a file of a baseline; lines that begin with # are comments.
   *
   * @return nothing where the text is no baseline, or not a whole one
   */
  public static Optional<Baseline> read(String text) {
    List<String> lines = text.lines().toList();
    if (lines.isEmpty() || !lines.get(0).equals(TITLE)) {
      return Optional.empty();
    }
    Set<String> known = new TreeSet<>();
    lines.stream().map(String::strip).filter(l -> !l.startsWith("#")).forEach(known::add);
    known.remove("");
    boolean whole = text.endsWith("\n") && lines.get(lines.size() - 1).strip().equals(END);
    return whole && known.stream().allMatch(line -> LINE.matcher(line).matches())
        ? Optional.of(new Baseline(known))
        : Optional.empty();
  }

  /** The file. */
  public String text() {
    return TITLE
        + "\n"
        + String.join("", known.stream().map(line -> line + "\n").toList())
        + END
        + "\n";
  }

  /** The findings that are not known; notes are never known. */
  public Findings unknown(Findings findings, UnaryOperator<String> path) {
    List<Finding> left =
        findings.all().stream()
            .filter(f -> !f.said().isFinding() || !known.contains(line(f, path)))
            .toList();
    return new Findings(findings.files(), left, findings.skipped());
  }

  /** The findings that are known. */
  public Findings known(Findings findings, UnaryOperator<String> path) {
    List<Finding> left = new ArrayList<>(findings.all());
    left.removeAll(unknown(findings, path).all());
    return new Findings(findings.files(), left, findings.skipped());
  }

  /** The lines whose findings are gone from the files that were checked. */
  public List<String> gone(Findings findings, UnaryOperator<String> path) {
    List<String> gone = new ArrayList<>(known);
    gone.removeAll(of(findings, path).known());
    return gone;
  }

  private static String line(Finding finding, UnaryOperator<String> path) {
    return path.apply(finding.file()) + " " + finding.said().name() + " " + finding.fingerprint();
  }
}
