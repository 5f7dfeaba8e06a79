package dev.doublet.editor;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Label;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Findings of earlier texts carried over to the present ones, until all checks have run again. A
 * finding is carried while every declaration that it points at still says the same, word for word;
 * else it is dropped, as it may no longer hold. What was learnt of texts is kept from one present
 * to the next, as little of them changes at a keystroke.
 */
public final class CarriedFindings {
  private final List<Diagnostic> findings;
  private final Map<SourceFile, Declarations> before = new HashMap<>();
  private Map<String, List<String>> words = new HashMap<>();

  /** Findings of earlier texts. */
  public CarriedFindings(List<Diagnostic> findings) {
    this.findings = List.copyOf(findings);
  }

  /**
   * Carries them over.
   *
   * @param present the present texts by name
   */
  public List<Diagnostic> over(Map<String, SourceFile> present) {
    Move move = new Move(present);
    List<Diagnostic> moved = findings.stream().flatMap(f -> move.of(f).stream()).toList();
    words = move.used;
    return moved;
  }

  /** From the earlier texts to some present ones. */
  private final class Move {
    private final Map<String, SourceFile> present;
    private final Map<String, Map<List<String>, List<Span>>> alike = new HashMap<>();
    private final Map<String, List<String>> used = new HashMap<>();

    Move(Map<String, SourceFile> present) {
      this.present = present;
    }

    Optional<Diagnostic> of(Diagnostic finding) {
      Optional<Label> primary = of(finding.primary());
      List<Label> others = new ArrayList<>();
      for (Label label : finding.related()) {
        of(label).ifPresent(others::add);
      }
      return primary.isPresent() && others.size() == finding.related().size()
          ? Optional.of(finding.at(primary.get(), others))
          : Optional.empty();
    }

    private Optional<Label> of(Label label) {
      return of(label.span()).map(span -> new Label(span, label.text()));
    }

    private Optional<Span> of(Span span) {
      SourceFile file = present.get(span.file().name());
      if (file == null) {
        return Optional.empty();
      }
      if (file.text().equals(span.file().text())) {
        return Optional.of(file.span(span.start(), span.end()));
      }
      Optional<Span> part =
          before.computeIfAbsent(span.file(), Declarations::of).around(span.start());
      if (part.isEmpty() || span.end() > part.get().end()) {
        return Optional.empty();
      }
      List<Span> alike = alike(file).getOrDefault(words(part.get()), List.of());
      // Of two parts that say the same nobody knows which is meant.
      return alike.size() == 1
          ? Optional.of(moved(span, part.get(), alike.get(0)))
          : Optional.empty();
    }

    private Map<List<String>, List<Span>> alike(SourceFile file) {
      return alike.computeIfAbsent(
          file.name(),
          name -> {
            Map<List<String>, List<Span>> parts = new HashMap<>();
            for (Span part : Declarations.of(file).parts()) {
              parts.computeIfAbsent(words(part), w -> new ArrayList<>()).add(part);
            }
            return parts;
          });
    }

    private List<String> words(Span part) {
      String text = part.text();
      return used.computeIfAbsent(
          text,
          t -> {
            List<String> known = words.get(t);
            return known == null ? Wording.of(part).words() : known;
          });
    }
  }

  private static Span moved(Span span, Span was, Span is) {
    if (was.text().equals(is.text())) {
      int by = is.start() - was.start();
      return is.file().span(span.start() + by, span.end() + by);
    }
    Wording wording = Wording.of(was);
    Wording other = Wording.of(is);
    int start = wording.moved(span.start(), other);
    boolean point = span.start() == span.end();
    int end = point ? start : wording.moved(span.end() - 1, other) + 1;
    return is.file().span(start, Math.max(start, end));
  }
}
