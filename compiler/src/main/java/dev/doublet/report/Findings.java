package dev.doublet.report;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * What one run found, as programs read it. Every format is written from this.
 *
 * @param files the files that were checked, sorted
 * @param all what is said, by file and place
 * @param skipped how many checks did not run because of errors
 */
public record Findings(List<String> files, List<Finding> all, int skipped) {
  private static final int HEX_DIGITS = 16;

  /** What grows with the layout, and what is advised of the rest. */
  private static final Set<String> FOLLOWING = Set.of("site", "ways");

  /** Copies the lists. */
  public Findings {
    files = List.copyOf(files);
    all = List.copyOf(all);
  }

  /**
   * One thing that is said.
   *
   * @param said what
   * @param fingerprint tells it from all others of its file, by its name and what it is about, not
   *     by where it stands or how it is worded; 16 hexadecimal digits, and a count where several
   *     are alike
   */
  public record Finding(Diagnostic said, String fingerprint) {
    /** The file that it is found in. */
    public String file() {
      return said.primary().span().file().name();
    }
  }

  /** What is said, by file and place. */
  public List<Diagnostic> diagnostics() {
    return all.stream().map(Finding::said).toList();
  }

  /**
   * What is said of some files.
   *
   * @param said in any order
   * @param notes true to keep notes too
   */
  public static Findings of(List<String> files, List<Diagnostic> said, int skipped, boolean notes) {
    List<Diagnostic> kept =
        said.stream()
            .filter(d -> notes || d.isFinding())
            .sorted(Diagnostic.ORDER)
            .distinct()
            .toList();
    Map<String, Integer> counts = new HashMap<>();
    List<Finding> all = new ArrayList<>();
    for (Diagnostic one : kept) {
      String print = fingerprint(one);
      int count = counts.merge(one.primary().span().file().name() + "\n" + print, 1, Integer::sum);
      all.add(new Finding(one, count == 1 ? print : print + "-" + count));
    }
    return new Findings(files, all, skipped);
  }

  private static String fingerprint(Diagnostic said) {
    List<String> parts = new ArrayList<>(List.of(said.name()));
    parts.addAll(said.about().stream().sorted().toList());
    if (said.about().isEmpty() && said.tier() == Tier.MEANING) {
      for (Datum datum : said.data()) {
        if (datum instanceof Datum.Texts words && !FOLLOWING.contains(words.name())) {
          parts.addAll(words.values());
        }
      }
    }
    if (parts.size() == 1) {
      parts.add(said.primary().span().text());
    }
    return hash(String.join("\n", parts));
  }

  private static String hash(String text) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(hash).substring(0, HEX_DIGITS);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
