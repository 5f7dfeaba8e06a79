package dev.doublet.check.wording;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.BookFacts;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Speed;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/** An indication that speaks of a speed or a stop which the aspect does not allow or ask for. */
public final class IndicationAgainstPermission implements Check.OfBook {
  /** "at medium speed": a word is a speed only where it says so. */
  private static final Pattern SPEED = Pattern.compile("([\\p{L}\\p{Nd}-]+) speed");

  private static final Pattern FIGURE = Pattern.compile("(\\p{Nd}+) ?(mph|km/h)");
  private static final Pattern STOP = Pattern.compile("(?<!not )(?<!without )\\bstop\\b");

  @Override
  public List<Diagnostic> find(BookFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Aspect aspect : facts.book().aspects()) {
      // Of many numbers the first says it.
      aspect.each().stream()
          .filter(a -> !named(facts.book(), a).isEmpty())
          .findFirst()
          .ifPresent(a -> named(facts.book(), a).forEach(n -> found.add(report(a, n))));
    }
    return found;
  }

  /** What an indication names that its permission has not. */
  private static Set<String> named(Rulebook book, Aspect aspect) {
    Set<String> named = new LinkedHashSet<>();
    Permission permission = aspect.permission();
    if (aspect.indication().isEmpty()
        || all(permission).anyMatch(Movement.Unread.class::isInstance)) {
      return named;
    }
    String words = aspect.indication().toLowerCase(Locale.ROOT).replaceAll("\\s+", " ");
    Set<String> has = new TreeSet<>();
    Set<String> figures = new TreeSet<>();
    all(permission)
        .flatMap(IndicationAgainstPermission::speeds)
        .forEach(
            speed -> {
              has.add(speed.name().toLowerCase(Locale.ROOT));
              figures.add(String.valueOf(speed.figure()));
            });
    Matcher speed = SPEED.matcher(words);
    while (speed.find()) {
      boolean known =
          book.speeds().stream()
              .anyMatch(s -> s.name().toLowerCase(Locale.ROOT).equals(speed.group(1)));
      if (known && !has.contains(speed.group(1))) {
        named.add("the speed \"" + speed.group(1) + "\"");
      }
    }
    Matcher figure = FIGURE.matcher(words);
    while (figure.find()) {
      if (figure.group(2).equals(book.unit()) && !figures.contains(figure.group(1))) {
        named.add(figure.group());
      }
    }
    boolean stops =
        all(permission).anyMatch(m -> m instanceof Movement.Stop || m instanceof Movement.StopThen)
            || permission.announced() instanceof Movement.Stop
            || all(permission)
                .flatMap(IndicationAgainstPermission::speeds)
                .anyMatch(Speed::onSight);
    if (STOP.matcher(words).find() && !stops) {
      named.add("a stop");
    }
    return named;
  }

  private static Stream<Movement> all(Permission permission) {
    return Stream.of(permission.here(), permission.next(), permission.second());
  }

  private static Stream<Speed> speeds(Movement movement) {
    if (movement instanceof Movement.Proceed proceed) {
      return Stream.of(proceed.speed());
    }
    if (movement instanceof Movement.Reducing reducing) {
      return Stream.of(reducing.from(), reducing.to());
    }
    return movement instanceof Movement.StopThen then ? Stream.of(then.speed()) : Stream.empty();
  }

  private Diagnostic report(Aspect aspect, String named) {
    return finding(
            Severity.WARNING,
            aspect.permissionSpan(),
            Words.say("\"%s\" tells of %s, which it does not allow", aspect.name(), named))
        .about(List.of(aspect.name()))
        .label("allows " + aspect.permission().words())
        .word("aspect", aspect.name())
        .word("named", named)
        .fact("indicates", aspect.indication())
        .because("what a crew is told and what Doublet compares are two things then")
        .help("mend the indication, or what it allows");
  }
}
