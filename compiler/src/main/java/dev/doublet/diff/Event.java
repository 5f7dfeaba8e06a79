package dev.doublet.diff;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;

/**
 * One change in meaning.
 *
 * @param sort what sort of change it is
 * @param consequence what it leads to
 * @param file the file that says it, by its new name
 * @param subject what changed
 * @param said what became of the subject, to be read after it: "permits more at the next signal"
 * @param at what of the subject changed, where that has a name: a form, a value; may be empty
 * @param before how it was, in the words of the language; may be empty
 * @param after how it is; may be empty
 * @param how why the two were compared, where their names do not say it; may be empty
 * @param sightBeforeOrNull what was seen
 * @param sightAfterOrNull what is seen
 */
public record Event(
    Sort sort,
    Consequence consequence,
    String file,
    Subject subject,
    String said,
    String at,
    String before,
    String after,
    String how,
    Sight sightBeforeOrNull,
    Sight sightAfterOrNull) {

  /** Worst first, then by sort, file and what changed. */
  public static final Comparator<Event> ORDER =
      Comparator.comparing(Event::consequence)
          .thenComparing(Event::sort)
          .thenComparing(Event::file)
          .thenComparing(e -> e.subject().kind())
          .thenComparing(e -> e.subject().names().toString())
          .thenComparing((Event e) -> e.at)
          .thenComparing(Event::before)
          .thenComparing(Event::after);

  private static final int HEX_DIGITS = 16;

  /** An event to be told more with the methods below. */
  static Event of(Sort sort, Consequence consequence, Subject subject, String said) {
    return new Event(sort, consequence, "", subject, said, "", "", "", "", null, null);
  }

  Event in(String place) {
    return new Event(
        sort,
        consequence,
        place,
        subject,
        said,
        at,
        before,
        after,
        how,
        sightBeforeOrNull,
        sightAfterOrNull);
  }

  Event at(String what) {
    return new Event(
        sort,
        consequence,
        file,
        subject,
        said,
        what,
        before,
        after,
        how,
        sightBeforeOrNull,
        sightAfterOrNull);
  }

  Event from(String was, String is) {
    return new Event(
        sort,
        consequence,
        file,
        subject,
        said,
        at,
        was,
        is,
        how,
        sightBeforeOrNull,
        sightAfterOrNull);
  }

  Event because(String reason) {
    return new Event(
        sort,
        consequence,
        file,
        subject,
        said,
        at,
        before,
        after,
        reason,
        sightBeforeOrNull,
        sightAfterOrNull);
  }

  Event seen(Sight was, Sight is) {
    return new Event(sort, consequence, file, subject, said, at, before, after, how, was, is);
  }

  /** The same of other things of its kind. */
  Event of(List<String> names) {
    return new Event(
        sort,
        consequence,
        file,
        new Subject(subject.kind(), names),
        said,
        at,
        before,
        after,
        how,
        sightBeforeOrNull,
        sightAfterOrNull);
  }

  /** The sentence: "aspect "Clear" permits more at the next signal". */
  public String sentence() {
    return subject.words() + " " + said;
  }

  /** What was seen. */
  public Optional<Sight> sightBefore() {
    return Optional.ofNullable(sightBeforeOrNull);
  }

  /** What is seen. */
  public Optional<Sight> sightAfter() {
    return Optional.ofNullable(sightAfterOrNull);
  }

  /**
   * Tells this change from every other: its sort, what changed, and how it was and is, not where it
   * stands or how it is worded; 16 hexadecimal digits.
   */
  public String fingerprint() {
    List<String> parts = new ArrayList<>(List.of(sort.word(), consequence.word(), file));
    parts.add(subject.kind());
    parts.addAll(subject.names());
    parts.addAll(List.of("", at, before, after));
    return hash(parts);
  }

  static String hash(List<String> parts) {
    try {
      // The length before each part keeps two parts apart from one that holds their mark.
      StringBuilder text = new StringBuilder();
      parts.forEach(part -> text.append(part.length()).append(':').append(part));
      byte[] hash =
          MessageDigest.getInstance("SHA-256")
              .digest(text.toString().getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(hash).substring(0, HEX_DIGITS);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
