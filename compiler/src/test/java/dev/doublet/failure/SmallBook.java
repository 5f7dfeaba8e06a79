package dev.doublet.failure;

import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;

/** Writes small random rulebooks, as text, on which every picture can be counted out. */
public final class SmallBook {
  static final List<String> DISPLAYS =
      List.of("red", "green", "dark", "flashing red", "flashing green");

  private static final List<String> FORMS = List.of("one", "two", "three", "left", "low", "pair");
  private static final List<Integer> HEADS = List.of(1, 2, 3, 2, 1, 2);
  private static final List<String> MOVEMENTS =
      List.of(
          "stop",
          "slow",
          "fast",
          "odd",
          "line",
          "creep",
          "stop, then slow",
          "stop, then creep",
          "unsaid",
          "not stop",
          "fast reducing to creep",
          "line reducing to odd");

  private final Random random;

  public SmallBook(long start) {
    this.random = new Random(start);
  }

  public Rulebook book() {
    SourceFile file = new SourceFile("small.aspects", text());
    return RulebookResolver.resolve("small.aspects", path -> file).value().orElseThrow();
  }

  /** The next book, as text. */
  public String text() {
    StringBuilder text = new StringBuilder("rulebook \"Small\"\n");
    text.append(
        "speeds in mph { fast 60  slow 20  odd unranked  line maximum  creep 25 on sight }\n");
    text.append("colours { red green }\nrhythms { flashing 60 per minute }\nplate p, q\n");
    text.append("form one { a }\nform two { a, b }\nform three { a, b, c }\n");
    text.append("form left staggered { a, b }\nform low dwarf { a }\nform pair dwarf { a, b }\n");
    Imperfect rule = Imperfect.CHOICES.get(random.nextInt(4));
    int aspects = 2 + random.nextInt(4);
    text.append("imperfect signals read as ");
    if (random.nextInt(3) == 0) {
      text.append("\"A").append(random.nextInt(aspects)).append("\" where green");
      text.append(random.nextBoolean() ? " alone" : "").append(" shows, else ");
    }
    text.append(rule.words()).append('\n');
    for (int i = 0; i < aspects; i++) {
      text.append("aspect \"A").append(i).append("\" { allows ").append(one(MOVEMENTS));
      if (random.nextBoolean()) {
        text.append(" then ").append(one(MOVEMENTS));
        text.append(random.nextInt(3) == 0 ? " at short distance" : "");
      }
      if (random.nextInt(3) == 0) {
        text.append(" then ").append(one(MOVEMENTS)).append(" at the second signal");
      }
      int patterns = 1 + random.nextInt(4);
      for (int j = 0; j < patterns; j++) {
        text.append(pattern());
      }
      text.append(" }\n");
    }
    return text.toString();
  }

  private String pattern() {
    int form = random.nextInt(FORMS.size());
    List<String> heads = new ArrayList<>();
    for (int head = 0; head < HEADS.get(form); head++) {
      heads.add(
          switch (random.nextInt(6)) {
            case 0 -> "any";
            case 1 -> "(" + one(DISPLAYS) + " or " + one(DISPLAYS) + ")";
            default -> one(DISPLAYS);
          });
    }
    String plates =
        switch (random.nextInt(4)) {
          case 0 -> " with p plate";
          case 1 -> " with p and q plates";
          default -> "";
        };
    return " on " + FORMS.get(form) + plates + " show " + String.join(" over ", heads);
  }

  private String one(List<String> words) {
    return words.get(random.nextInt(words.size()));
  }
}
