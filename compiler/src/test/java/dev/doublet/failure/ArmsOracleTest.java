package dev.doublet.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.facts.FaultWords;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** Faults of arms in small random books, against counting out what may be seen of each. */
class ArmsOracleTest {
  private static final List<List<String>> ARMS =
      List.of(List.of("level", "raised", "high"), List.of("short-level", "short-raised"));
  private static final Map<String, String> LIGHTS =
      Map.of(
          "level",
          "red",
          "raised",
          "green",
          "high",
          "yellow",
          "short-level",
          "yellow",
          "short-raised",
          "green");
  private static final List<String> SPEEDS = List.of("stop", "slow", "fast");
  private static final List<String> RULES = List.of("most restrictive", "lit", "any fitting");
  private static final String DARK = "dark";

  /** A line of the book: the aspect, and what it shows head by head, "any" for anything. */
  private record Row(String aspect, List<String> shows) {
    boolean covers(List<String> picture) {
      boolean covers = shows.size() == picture.size();
      for (int head = 0; covers && head < picture.size(); head++) {
        covers = shows.get(head).equals("any") || shows.get(head).equals(picture.get(head));
      }
      return covers;
    }
  }

  private record Book(List<Row> rows, Map<String, Integer> speeds, String rule) {
    String text() {
      StringBuilder text =
          new StringBuilder(
              "rulebook \"Arms\"\nspeeds in mph { fast 60  slow 20 }\ncolours { red green yellow }\n"
                  + "arm home shows level in red, raised in green, high in yellow\n"
                  + "arm small shows short-level in yellow, short-raised in green\n"
                  + "form one { a }\nform two { a, b }\nimperfect signals read as ");
      text.append(rule).append('\n');
      speeds.forEach(
          (aspect, speed) -> {
            text.append("aspect \"").append(aspect).append("\" { allows ");
            text.append(SPEEDS.get(speed));
            rows.stream()
                .filter(row -> row.aspect().equals(aspect))
                .forEach(
                    row ->
                        text.append(row.shows().size() == 1 ? " on one show " : " on two show ")
                            .append(String.join(" over ", row.shows())));
            text.append(" }\n");
          });
      return text.toString();
    }

    Set<String> meant(List<List<String>> looks) {
      return rows.stream()
          .filter(row -> pictures(looks).stream().anyMatch(row::covers))
          .map(Row::aspect)
          .collect(Collectors.toCollection(TreeSet::new));
    }

    /** What a crew may read of heads that each look like any of some displays. */
    Set<String> reads(List<List<String>> looks, Set<String> shown) {
      Set<String> reads = meant(looks);
      List<List<String>> lit = looks.stream().filter(l -> !l.equals(List.of(DARK))).toList();
      if (!reads.isEmpty() || lit.isEmpty()) {
        return reads.isEmpty() ? slowest(shown) : reads;
      }
      if (rule.equals("lit") && lit.size() < looks.size()) {
        reads = meant(lit);
      } else if (rule.equals("any fitting")) {
        List<List<String>> all = new ArrayList<>();
        looks.forEach(l -> all.add(l.equals(List.of(DARK)) ? displays() : l));
        reads = meant(all);
      }
      return reads.isEmpty() ? slowest(shown) : reads;
    }

    private Set<String> slowest(Set<String> shown) {
      int least = shown.stream().mapToInt(speeds::get).min().orElseThrow();
      return shown.stream()
          .filter(aspect -> speeds.get(aspect) == least)
          .collect(Collectors.toCollection(TreeSet::new));
    }
  }

  private static List<String> displays() {
    return ARMS.stream().flatMap(List::stream).toList();
  }

  private static Book book(Random random) {
    List<Row> rows = new ArrayList<>();
    Map<String, Integer> speeds = new LinkedHashMap<>();
    int aspects = 2 + random.nextInt(3);
    for (int i = 0; i < aspects; i++) {
      String aspect = "A" + i;
      speeds.put(aspect, random.nextInt(SPEEDS.size()));
      int patterns = 1 + random.nextInt(2);
      for (int j = 0; j < patterns; j++) {
        List<String> shows = new ArrayList<>();
        int heads = 1 + random.nextInt(2);
        for (int head = 0; head < heads; head++) {
          List<String> arm = ARMS.get(head);
          boolean any = random.nextInt(4) == 0;
          shows.add(any ? "any" : arm.get(random.nextInt(arm.size())));
        }
        rows.add(new Row(aspect, shows));
      }
    }
    return new Book(rows, speeds, RULES.get(random.nextInt(RULES.size())));
  }

  @Property(tries = 500, seed = "1957")
  void faults_of_arms_are_read_as_by_counting_out_what_each_may_be(@ForAll long start) {
    Book small = book(new Random(start));
    SourceFile file = new SourceFile("arms.aspects", small.text());
    Rulebook book = RulebookResolver.resolve("arms.aspects", path -> file).value().orElseThrow();

    Set<String> found = new TreeSet<>();
    for (Site site : Site.of(book)) {
      for (Case one : site.cases()) {
        Set<String> read = new TreeSet<>();
        one.read().reads().forEach(r -> read.add(r.aspect().name()));
        List<String> picture = one.shown().picture().stream().map(d -> d.words()).toList();
        List<String> seen = one.trial().seen().stream().map(FaultWords::seen).toList();
        found.add(line(one.meant().name(), picture, one.trial().faults().get(0), seen, read));
      }
    }
    Set<String> expected = new TreeSet<>();
    expect(small, 1, expected);
    expect(small, 2, expected);
    assertThat(found).as(small.text()).isEqualTo(expected);
  }

  private static void expect(Book book, int heads, Set<String> lines) {
    List<Row> rows = book.rows().stream().filter(r -> r.shows().size() == heads).toList();
    Set<Row> put = new LinkedHashSet<>();
    for (Row row : rows) {
      List<List<String>> options = new ArrayList<>();
      for (int head = 0; head < heads; head++) {
        String shows = row.shows().get(head);
        options.add(shows.equals("any") ? rest(rows, head) : List.of(shows));
      }
      pictures(options).forEach(picture -> put.add(new Row(row.aspect(), picture)));
    }
    Set<String> shown = new TreeSet<>();
    put.forEach(one -> shown.add(one.aspect()));
    for (Row one : put) {
      List<String> picture = one.shows();
      String meant = one.aspect();
      for (int head = 0; head < heads; head++) {
        int at = head;
        List<List<String>> night = new ArrayList<>();
        List<String> seen = new ArrayList<>();
        for (int other = 0; other < heads; other++) {
          String light = other == head ? DARK : LIGHTS.get(picture.get(other));
          seen.add(light);
          night.add(light.equals(DARK) ? List.of(DARK) : alike(light));
        }
        add(book, meant, picture, Fault.LAMP_OUT, seen, night, shown, lines);
        List<String> arm =
            ARMS.stream().filter(a -> a.contains(picture.get(at))).findFirst().orElseThrow();
        for (String position : arm) {
          boolean safest = position.equals(arm.get(0));
          boolean ever = put.stream().anyMatch(p -> p.shows().get(at).equals(position));
          if (!position.equals(picture.get(at)) && (safest || ever)) {
            List<String> then = new ArrayList<>(picture);
            then.set(at, position);
            Fault fault = safest ? Fault.ARM_FALLEN : Fault.ARM_STUCK;
            add(book, meant, picture, fault, then, exactly(then), shown, lines);
          }
        }
      }
    }
  }

  /** The safe sides of the arms that can show what every aspect asks for. */
  private static List<String> rest(List<Row> rows, int head) {
    Map<String, List<String>> asked = new LinkedHashMap<>();
    rows.forEach(
        r -> asked.computeIfAbsent(r.aspect(), a -> new ArrayList<>()).add(r.shows().get(head)));
    List<String> rest =
        ARMS.stream()
            .filter(
                arm ->
                    asked.values().stream()
                        .allMatch(
                            its -> its.stream().anyMatch(l -> l.equals("any") || arm.contains(l))))
            .map(arm -> arm.get(0))
            .toList();
    return rest.isEmpty() ? List.of(DARK) : rest;
  }

  private static void add(
      Book book,
      String meant,
      List<String> picture,
      Fault fault,
      List<String> seen,
      List<List<String>> looks,
      Set<String> shown,
      Set<String> lines) {
    Set<String> read = book.meant(looks).contains(meant) ? Set.of(meant) : book.reads(looks, shown);
    lines.add(line(meant, picture, fault, seen, read));
  }

  private static String line(
      String meant, List<String> picture, Fault fault, List<String> seen, Set<String> read) {
    return String.join(" | ", meant, "" + picture, "" + fault, "" + seen, "" + read);
  }

  private static List<List<String>> exactly(List<String> picture) {
    return picture.stream().map(List::of).toList();
  }

  /** The displays that are this light by night. */
  private static List<String> alike(String light) {
    return displays().stream().filter(d -> LIGHTS.get(d).equals(light)).toList();
  }

  private static List<List<String>> pictures(List<List<String>> options) {
    List<List<String>> pictures = List.of(List.of());
    for (List<String> here : options) {
      List<List<String>> longer = new ArrayList<>();
      for (List<String> start : pictures) {
        for (String display : here) {
          List<String> next = new ArrayList<>(start);
          next.add(display);
          longer.add(next);
        }
      }
      pictures = longer;
    }
    return pictures;
  }
}
