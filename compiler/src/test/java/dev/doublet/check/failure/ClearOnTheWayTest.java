package dev.doublet.check.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.facts.BookFacts;
import dev.doublet.facts.CheckOptions;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Test;

class ClearOnTheWayTest {
  /** What heads show: the positions of two arms as they move, and two colours. */
  private static final List<List<String>> HEADS =
      List.of(List.of("level", "raised"), List.of("flat", "inclined", "upright"));

  private static final List<String> LIGHTS = List.of("red", "green");

  /** Every picture in between is counted out, of speeds that are told apart by one number each. */
  @Test
  void tells_of_every_aspect_that_shows_on_the_way_and_of_no_other() {
    Random random = new Random(20_261);
    int told = 0;
    for (int book = 0; book < 300; book++) {
      List<List<String>> heads = new ArrayList<>();
      for (int i = 1 + random.nextInt(3); i > 0; i--) {
        int which = random.nextInt(3);
        heads.add(which == 2 ? LIGHTS : HEADS.get(which));
      }
      Map<List<Integer>, Integer> speeds =
          new TreeMap<>((a, b) -> a.toString().compareTo(b.toString()));
      for (int i = 2 + random.nextInt(5); i > 0; i--) {
        speeds.putIfAbsent(
            heads.stream().map(h -> random.nextInt(h.size())).toList(), 1 + random.nextInt(90));
      }
      Set<String> expected = new TreeSet<>();
      for (List<Integer> from : speeds.keySet()) {
        for (List<Integer> to : speeds.keySet()) {
          for (List<Integer> seen : between(heads, from, to)) {
            Integer speed = speeds.get(seen);
            if (speed != null && speed > speeds.get(from) && speed > speeds.get(to)) {
              expected.add(name(seen));
            }
          }
        }
      }
      Set<String> found = new TreeSet<>();
      new ClearOnTheWay()
          .find(facts(heads, speeds))
          .forEach(
              d ->
                  found.add(
                      speeds.keySet().stream()
                          .map(ClearOnTheWayTest::name)
                          .filter(n -> d.message().contains("\"" + n + "\" shows while"))
                          .findFirst()
                          .orElseThrow()));

      assertThat(found).as("book %s of %s", speeds, heads).isEqualTo(expected);
      told += found.size();
    }
    assertThat(told).isGreaterThan(50);
  }

  private static String name(List<Integer> picture) {
    return "P" + picture;
  }

  /** All pictures while one changes to another: none when no arm moves. */
  private static Set<List<Integer>> between(
      List<List<String>> heads, List<Integer> from, List<Integer> to) {
    Set<List<Integer>> pictures = new HashSet<>();
    pictures.add(List.of());
    boolean moves = false;
    for (int head = 0; head < heads.size(); head++) {
      boolean arm = heads.get(head) != LIGHTS;
      int first = arm ? Math.min(from.get(head), to.get(head)) : to.get(head);
      int last = arm ? Math.max(from.get(head), to.get(head)) : to.get(head);
      moves |= arm && first < last;
      Set<List<Integer>> longer = new HashSet<>();
      for (List<Integer> picture : pictures) {
        for (int at = first; at <= last; at++) {
          List<Integer> more = new ArrayList<>(picture);
          more.add(at);
          longer.add(more);
        }
      }
      pictures = longer;
    }
    return moves ? pictures : Set.of();
  }

  private static BookFacts facts(List<List<String>> heads, Map<List<Integer>, Integer> speeds) {
    StringBuilder text = new StringBuilder("rulebook \"Brackwater & Northern\"\n");
    text.append("colours { red green }\narm two shows level, raised\n");
    text.append("arm three shows flat, inclined, upright\nspeeds in mph {");
    speeds.values().stream().distinct().forEach(s -> text.append(" v" + s + " " + s));
    text.append(" }\nform post {");
    for (int head = 0; head < heads.size(); head++) {
      text.append(head == 0 ? " h0" : ", h" + head);
    }
    text.append(" }\n");
    speeds.forEach(
        (picture, speed) -> {
          text.append("aspect \"" + name(picture) + "\" { allows v" + speed + "  on post show ");
          for (int head = 0; head < heads.size(); head++) {
            text.append(head == 0 ? "" : " over ").append(heads.get(head).get(picture.get(head)));
          }
          text.append(" }\n");
        });
    return BookFacts.of(
        RulebookResolver.resolve("b.aspects", p -> new SourceFile(p, text.toString()))
            .value()
            .orElseThrow(),
        CheckOptions.ALL);
  }
}
