package dev.doublet.diagnostic;

import java.util.List;
import java.util.Optional;

/**
 * What a stage made, and what it has to say about it.
 *
 * @param <T> what the stage makes
 */
public final class Outcome<T> {
  private final T value;
  private final List<Diagnostic> diagnostics;

  private Outcome(T value, List<Diagnostic> diagnostics) {
    this.value = value;
    this.diagnostics = List.copyOf(diagnostics);
  }

  /** A stage that made something, perhaps with remarks. */
  public static <T> Outcome<T> of(T value, List<Diagnostic> diagnostics) {
    return new Outcome<>(java.util.Objects.requireNonNull(value), diagnostics);
  }

  /** A stage that could not make anything. */
  public static <T> Outcome<T> failed(List<Diagnostic> diagnostics) {
    return new Outcome<>(null, diagnostics);
  }

  /** What was made; empty when the text was too broken. */
  public Optional<T> value() {
    return Optional.ofNullable(value);
  }

  /** What the stage has to say. */
  public List<Diagnostic> diagnostics() {
    return diagnostics;
  }

  /** True when any diagnostic is an error. */
  public boolean hasErrors() {
    return diagnostics.stream().anyMatch(d -> d.severity() == Severity.ERROR);
  }
}
