package dev.doublet.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;

/**
 * Writes small random rulebooks, as text, on which every picture can be counted out. Each is
 * written twice: with aspects of many numbers, and with an aspect for each of their numbers.
 */
public final class SmallBook {
  static final List<String> DISPLAYS =
      List.of("red", "green", "dark", "flashing red", "flashing green", "4", "6");

  private static final List<String> NUMBERS = List.of("4", "6");
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

  private static final String OTHERS =
      "fast 60  slow 20  odd unranked  line maximum  creep 25 on sight }\n"
          + "rhythms { flashing 60 per minute }\nplate p, q\n"
          + "form one { a }\nform two { a, b }\nform three { a, b, c }\n"
          + "form left staggered { a, b }\nform low dwarf { a }\nform pair dwarf { a, b }\n";

  private final Random random;
  private final String text;
  private final String plainText;

  public SmallBook(long start) {
    this.random = new Random(start);
    int aspects = 2 + random.nextInt(4);
    List<List<String>> letters = new ArrayList<>();
    for (int i = 0; i < aspects; i++) {
      letters.add(List.of(List.<String>of(), List.of("{n}"), List.of("{n}", "{m}")).get(kind()));
    }
    StringBuilder all = new StringBuilder();
    imperfect(letters, all);
    StringBuilder plain = new StringBuilder(all);
    for (int i = 0; i < aspects; i++) {
      String aspect = aspect(i, letters.get(i));
      all.append(aspect.replaceAll("=(\\{.})", "$1"));
      plain.append(ofEachNumber(aspect, letters.get(i)));
    }
    String head = "rulebook \"Small\"\nspeeds in mph { figures 40";
    this.text = head + " " + OTHERS + "numbers times 10 { 4 6 }\ncolours { red green }\n" + all;
    this.plainText =
        head + ", 60 " + OTHERS + "colours { red green }\nhead speed shows 4, 6 in red\n" + plain;
  }

  /** Every third aspect or so is of many numbers. */
  private int kind() {
    int kind = random.nextInt(8);
    return kind < 5 ? 0 : kind < 7 ? 1 : 2;
  }

  /** With an aspect for each number. */
  Rulebook plain() {
    return book(plainText);
  }

  public Rulebook book() {
    return book(text);
  }

  private static Rulebook book(String text) {
    SourceFile file = new SourceFile("small.aspects", text);
    Outcome<Rulebook> book = RulebookResolver.resolve("small.aspects", path -> file);
    assertThat(book.diagnostics()).as(text).noneMatch(Diagnostic::isFinding);
    return book.value().orElseThrow();
  }

  /** The book with aspects of many numbers. */
  public String text() {
    return text;
  }

  private void imperfect(List<List<String>> letters, StringBuilder text) {
    Imperfect rule = Imperfect.CHOICES.get(random.nextInt(4));
    text.append("imperfect signals read as ");
    if (random.nextInt(3) == 0) {
      int i = random.nextInt(letters.size());
      String name = name(i, letters.get(i));
      text.append(name.replace("{n}", one(NUMBERS)).replace("{m}", one(NUMBERS)));
      text.append(" where green");
      text.append(random.nextBoolean() ? " alone" : "").append(" shows, else ");
    }
    text.append(rule.words()).append('\n');
  }

  private static String name(int i, List<String> letters) {
    return ("\"A" + i + " " + String.join(" ", letters)).strip() + "\"";
  }

  /** An aspect in which "={n}" is the speed of the number that {n} is. */
  private String aspect(int i, List<String> letters) {
    StringBuilder text = new StringBuilder("aspect " + name(i, letters) + " { allows ");
    text.append(movement(letters));
    if (random.nextBoolean()) {
      text.append(" then ").append(movement(letters));
      text.append(random.nextInt(3) == 0 ? " at short distance" : "");
    }
    if (random.nextInt(3) == 0) {
      text.append(" then ").append(movement(letters)).append(" at the second signal");
    }
    int patterns = 1 + random.nextInt(4);
    for (int j = 0; j < patterns; j++) {
      text.append(pattern(letters));
    }
    return text.append(" }\n").toString();
  }

  private String movement(List<String> letters) {
    return letters.isEmpty() || random.nextBoolean() ? one(MOVEMENTS) : "=" + one(letters);
  }

  private static String ofEachNumber(String aspect, List<String> letters) {
    List<String> all = List.of(aspect);
    for (String letter : letters) {
      List<String> longer = new ArrayList<>();
      for (String one : all) {
        for (String number : NUMBERS) {
          longer.add(one.replace("=" + letter, number + "0").replace(letter, number));
        }
      }
      all = longer;
    }
    return String.join("", all);
  }

  private String pattern(List<String> letters) {
    int form = random.nextInt(FORMS.size());
    while (HEADS.get(form) < letters.size()) {
      form = random.nextInt(FORMS.size());
    }
    List<String> heads = new ArrayList<>(letters);
    while (heads.size() < HEADS.get(form)) {
      heads.add(
          switch (random.nextInt(6)) {
            case 0 -> "any";
            case 1 -> "(" + one(DISPLAYS) + " or " + one(DISPLAYS) + ")";
            default -> one(DISPLAYS);
          });
    }
    Collections.shuffle(heads, random);
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
