package dev.doublet.layout.read;

import dev.doublet.bus.Accessory;
import dev.doublet.diagnostic.Words;
import java.math.BigInteger;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;

/** Names of several signals in one: "J1 to J40". Zeros before a number are kept. */
final class NameRun {
  private static final Pattern RUN = Pattern.compile("(.*?)([0-9]+) +to +(.*?)([0-9]+)");

  /** What is meant for names of several signals and is not written so. */
  private static final Pattern NEARLY =
      Pattern.compile(".*[0-9].* +to +.*[0-9].*", Pattern.CASE_INSENSITIVE);

  /** As many as a bus has addresses; nobody means more in one line. */
  private static final int MOST = Accessory.HIGHEST;

  private NameRun() {}

  /** What is wrong with names of several signals; empty for nothing, or for a single name. */
  static Optional<String> fault(String text) {
    Matcher run = RUN.matcher(text);
    if (!run.matches()) {
      return nearly(text);
    }
    String first = run.group(2);
    String last = run.group(4);
    if (!run.group(1).equals(run.group(3))) {
      return Optional.of(
          Words.say(
              "the first begins with \"%s\" and the last with \"%s\"", run.group(1), run.group(3)));
    }
    boolean zeros = isPadded(first) || isPadded(last);
    if (zeros && first.length() != last.length()) {
      return Optional.of(
          Words.say("%s and %s have not as many digits, zeros included", first, last));
    }
    BigInteger signals = new BigInteger(last).subtract(new BigInteger(first)).add(BigInteger.ONE);
    if (signals.compareTo(BigInteger.TWO) < 0) {
      return Optional.of(Words.say("%s does not come after %s", last, first));
    }
    return signals.compareTo(BigInteger.valueOf(MOST)) > 0
        ? Optional.of(Words.say("%,d signals are more than the %,d of a line", signals, MOST))
        : Optional.empty();
  }

  private static Optional<String> nearly(String text) {
    if (!NEARLY.matcher(text).matches()) {
      return Optional.empty();
    }
    boolean capital = RUN.matcher(text.toLowerCase(Locale.ROOT)).matches();
    return Optional.of(
        capital ? "its \"to\" has capital letters" : "its two names do not end in numbers");
  }

  private static boolean isPadded(String number) {
    return number.length() > 1 && number.startsWith("0");
  }

  /** Every name, in order; the text itself when it is the name of one signal, or has a fault. */
  static List<String> names(String text) {
    Matcher run = RUN.matcher(text);
    if (!run.matches() || fault(text).isPresent()) {
      return List.of(text);
    }
    BigInteger first = new BigInteger(run.group(2));
    int signals = new BigInteger(run.group(4)).subtract(first).intValueExact() + 1;
    return IntStream.range(0, signals)
        .mapToObj(i -> first.add(BigInteger.valueOf(i)).toString())
        .map(n -> "0".repeat(Math.max(0, run.group(2).length() - n.length())) + n)
        .map(n -> run.group(1) + n)
        .toList();
  }
}
