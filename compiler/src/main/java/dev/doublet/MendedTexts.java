package dev.doublet;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Edits;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * Texts in which everything is mended that has one sure mend.
 *
 * <p>Mending a text shows what the mistake hid, so it is checked and mended again until nothing is
 * left to do. No change is kept that makes an error: one that speaks of the changed place, or that
 * was not there before though all its checks ran.
 *
 * @param texts those that changed, by name: as they were, and as they are
 * @param done what was found and is mended, in the order that it was done
 * @param left what a check of the mended texts says
 * @param <T> what a check says
 */
public record MendedTexts<T>(Map<SourceFile, SourceFile> texts, List<Diagnostic> done, T left) {
  /**
   * A name that is misspelt hides a mistake, which hides another: more than that is no accident.
   */
  private static final int MOST_ROUNDS = 20;

  /**
   * Mends what a check finds.
   *
   * @param check reads texts and checks them
   * @param found what it found of which something may be mended
   */
  public static <T> MendedTexts<T> of(
      SourceReader reader, Function<SourceReader, T> check, Function<T, List<Diagnostic>> found) {
    Draft<T> draft = new Draft<>(reader, check, found);
    int rounds = 0;
    while (rounds < MOST_ROUNDS && draft.mend()) {
      rounds++;
    }
    return draft.mended();
  }

  /**
   * True when the sure mend of one finding is made by a run that mends nothing else: it makes no
   * error.
   *
   * @param finding as it was found in these texts
   */
  public static <T> boolean keeps(
      SourceReader reader,
      Function<SourceReader, T> check,
      Function<T, List<Diagnostic>> found,
      Diagnostic finding) {
    Draft<T> draft = new Draft<>(reader, check, found);
    return draft.said.stream()
        .filter(d -> Draft.key(d).equals(Draft.key(finding)))
        .filter(d -> d.primary().span().start() == finding.primary().span().start())
        .findFirst()
        .filter(d -> draft.keep(Edits.of(List.of(d))))
        .isPresent();
  }

  /** The texts of one run while they are mended. */
  private static final class Draft<T> {
    private final SourceReader reader;
    private final Function<SourceReader, T> check;
    private final Function<T, List<Diagnostic>> found;
    private final Map<String, SourceFile> originals = new TreeMap<>();
    private final List<Diagnostic> mended = new ArrayList<>();
    private Map<String, SourceFile> texts = new TreeMap<>();
    private T left;
    private List<Diagnostic> said;

    Draft(
        SourceReader reader, Function<SourceReader, T> check, Function<T, List<Diagnostic>> found) {
      this.reader = reader;
      this.check = check;
      this.found = found;
      this.left = check(texts);
      this.said = found.apply(left);
    }

    private T check(Map<String, SourceFile> changed) {
      return check.apply(
          path -> {
            SourceFile file = changed.get(path);
            return file == null ? reader.read(path) : file;
          });
    }

    /** Makes what changes it can; false when there was none to make. */
    boolean mend() {
      if (keep(Edits.of(mendable()))) {
        return true;
      }
      // Together they make an error; one by one, those are found that do not.
      boolean any = false;
      Set<String> refused = new HashSet<>();
      for (boolean more = true; more; ) {
        more = false;
        for (Diagnostic one : mendable()) {
          if (!Edits.of(List.of(one)).fixes().isEmpty() && refused.add(key(one))) {
            more = keep(Edits.of(List.of(one)));
            any |= more;
            if (more) {
              break;
            }
          }
        }
      }
      return any;
    }

    /** While there is an error, what a note says may come of it. */
    private List<Diagnostic> mendable() {
      boolean errors = said.stream().anyMatch(d -> d.severity() == Severity.ERROR);
      return said.stream().filter(d -> d.isFinding() || !errors).toList();
    }

    private boolean keep(Edits edits) {
      if (edits.fixes().isEmpty()) {
        return false;
      }
      Map<String, SourceFile> tried = new TreeMap<>(texts);
      for (Fix fix : edits.fixes()) {
        for (Fix.Edit edit : fix.edits()) {
          SourceFile before = edit.span().file();
          tried.computeIfAbsent(before.name(), name -> before);
        }
      }
      Map<String, SourceFile> before = Map.copyOf(tried);
      tried.replaceAll((name, file) -> edits.appliedTo(file));
      T checked = check(tried);
      List<Diagnostic> after = found.apply(checked);
      List<Diagnostic> done =
          said.stream()
              .filter(d -> Edits.sure(d).filter(edits.fixes()::contains).isPresent())
              .toList();
      if (after.stream().anyMatch(d -> isMade(d, edits, done))) {
        return false;
      }
      before.forEach(originals::putIfAbsent);
      texts = tried;
      left = checked;
      said = after;
      mended.addAll(done);
      return true;
    }

    /**
     * True for an error that comes of changes, or that they should have mended: a new one at a
     * place that changed, or one that no mistake in the text before could hide.
     */
    private boolean isMade(Diagnostic after, Edits edits, List<Diagnostic> done) {
      String key = key(after);
      boolean wasThere = said.stream().anyMatch(d -> key(d).equals(key));
      if (after.severity() != Severity.ERROR || wasThere) {
        return done.stream().anyMatch(d -> key(d).equals(key));
      }
      // Only errors keep checks from running, and what a book has wrong costs its layouts more.
      List<Diagnostic> errors = done.stream().filter(d -> d.severity() == Severity.ERROR).toList();
      boolean mayHaveBeenHidden =
          errors.stream()
              .anyMatch(
                  d ->
                      d.tier() == Tier.SYNTAX
                          || after.tier().compareTo(d.tier()) > 0
                          || !isOfOneFile(d, after));
      // A word mended into one that was said already leaves its value, unchanged, said twice.
      return !mayHaveBeenHidden
          || after.name().equals("duplicate-name")
          || edits.changes(after.primary().span())
          || after.related().stream().anyMatch(l -> edits.changes(l.span()));
    }

    private static boolean isOfOneFile(Diagnostic one, Diagnostic other) {
      return one.primary().span().file().name().equals(other.primary().span().file().name());
    }

    private static String key(Diagnostic diagnostic) {
      return diagnostic.name()
          + '\n'
          + diagnostic.primary().span().file().name()
          + '\n'
          + diagnostic.message();
    }

    MendedTexts<T> mended() {
      Map<SourceFile, SourceFile> changed = new LinkedHashMap<>();
      originals.forEach((name, file) -> changed.put(file, texts.get(name)));
      return new MendedTexts<>(changed, List.copyOf(mended), left);
    }
  }
}
