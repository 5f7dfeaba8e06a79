package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.chart.SequenceChart;
import dev.doublet.golden.Case;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Which aspects may follow one another. */
class SequenceTest {
  private static final Path CASES = Path.of("src/test/resources/cases/sequence");
  private static final Path ROOT = Path.of("..");

  static List<Path> cases() {
    return Case.pages(CASES);
  }

  /** A case names a file of the project where its input is an empty line. */
  @ParameterizedTest
  @MethodSource("cases")
  void the_chart_is_the_one_worked_out_by_hand(Path page) {
    Case input = Case.of(page);
    SourceReader reader =
        path -> {
          String given = input.files().getOrDefault(path, "\n");
          return new SourceFile(path, given.isBlank() ? fromProject(path) : given);
        };
    Rulebook book = RulebookResolver.resolve(input.root(), reader).value().orElseThrow();
    input.verify(SequenceChart.of(book).text());
  }

  /** The oracle walks every path of so many signals as there are aspects. */
  @Property(tries = 200, seed = "1957")
  void what_is_reached_is_what_some_path_reaches(@ForAll long start) {
    Rulebook book = new RandomBook(start).book();
    Sequence sequence = Sequence.of(book);
    for (Aspect from : book.aspects()) {
      Set<Aspect> reached = new HashSet<>();
      Set<Aspect> front = Set.of(from);
      for (int signal = 0; signal < book.aspects().size(); signal++) {
        Set<Aspect> ahead = new HashSet<>();
        for (Aspect at : front) {
          book.aspects().stream().filter(a -> Sequence.mayFollow(at, a)).forEach(ahead::add);
        }
        reached.addAll(ahead);
        front = ahead;
      }
      assertThat(sequence.reached(from)).containsExactlyInAnyOrderElementsOf(reached);
    }
  }

  /** A train that may be met by an aspect may also be met by any that permits more, and says so. */
  @Property(tries = 200, seed = "1957")
  void a_better_aspect_may_stand_wherever_a_worse_one_may(@ForAll long start) {
    Rulebook book = new RandomBook(start).book();
    for (Aspect here : book.aspects()) {
      for (Aspect worse : Sequence.of(book).next(here)) {
        for (Aspect better : book.aspects()) {
          boolean more =
              worse.permission().here().permitsNoMoreThan(better.permission().here())
                  && Sequence.announced(worse.permission())
                      .permitsNoMoreThan(Sequence.announced(better.permission()))
                  && !(worse.permission().here() instanceof Movement.Stop);
          assertThat(!more || Sequence.mayFollow(here, better))
              .as("%s, then %s or %s", here.name(), worse.name(), better.name())
              .isTrue();
        }
      }
    }
  }

  private static String fromProject(String path) throws SourceReader.Unreadable {
    try {
      return Files.readString(ROOT.resolve(path));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }
}
