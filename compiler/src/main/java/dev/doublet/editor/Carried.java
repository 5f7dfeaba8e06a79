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
 * Findings of an earlier text carried over to the present one, until all checks have run again. A
 * finding is carried while every declaration that it points at still says the same, word for word;
 * else it is dropped, as it may no longer hold.
 */
public final class Carried {
  private final Map<String, SourceFile> present;
  private final Map<SourceFile, Declarations> before = new HashMap<>();
  private final Map<String, Map<List<String>, List<Span>>> now = new HashMap<>();

  private Carried(Map<String, SourceFile> present) {
    this.present = present;
  }

  /**
   * Carries findings over.
   *
   * @param findings of earlier texts
   * @param present the present texts by name
   */
  public static List<Diagnostic> over(List<Diagnostic> findings, Map<String, SourceFile> present) {
    Carried carried = new Carried(present);
    return findings.stream().flatMap(f -> carried.moved(f).stream()).toList();
  }

  private Optional<Diagnostic> moved(Diagnostic finding) {
    Optional<Label> primary = moved(finding.primary());
    List<Label> others = new ArrayList<>();
    for (Label label : finding.related()) {
      moved(label).ifPresent(others::add);
    }
    return primary.isPresent() && others.size() == finding.related().size()
        ? Optional.of(finding.at(primary.get(), others))
        : Optional.empty();
  }

  private Optional<Label> moved(Label label) {
    return moved(label.span()).map(span -> new Label(span, label.text()));
  }

  private Optional<Span> moved(Span span) {
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
    Wording wording = Wording.of(part.get());
    List<Span> alike = alike(file).getOrDefault(wording.words(), List.of());
    // Of two parts that say the same nobody knows which is meant.
    if (alike.size() != 1) {
      return Optional.empty();
    }
    Wording other = Wording.of(alike.get(0));
    int start = wording.moved(span.start(), other);
    boolean point = span.start() == span.end();
    int end = point ? start : wording.moved(span.end() - 1, other) + 1;
    return Optional.of(file.span(start, Math.max(start, end)));
  }

  private Map<List<String>, List<Span>> alike(SourceFile file) {
    return now.computeIfAbsent(
        file.name(),
        name -> {
          Map<List<String>, List<Span>> alike = new HashMap<>();
          for (Span part : Declarations.of(file).parts()) {
            alike.computeIfAbsent(Wording.of(part).words(), w -> new ArrayList<>()).add(part);
          }
          return alike;
        });
  }
}
