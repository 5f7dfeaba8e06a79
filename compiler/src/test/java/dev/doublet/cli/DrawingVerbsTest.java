package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What verbs that draw print and write, and what they say where they cannot. */
class DrawingVerbsTest {
  @TempDir Path folder;
  private Session session;

  @BeforeEach
  void layOutAYard() throws IOException {
    session = Yard.in(folder);
  }

  @Test
  void a_page_is_written_with_the_layout_in_it() throws IOException {
    assertThat(session.run("page", "layout.yaml", "--output", "out")).isZero();
    assertThat(session.out()).isEqualTo("layout.html\n");
    assertThat(folder.resolve("out/layout.html")).content().contains("Coalpit Yard", "W2");
  }

  @Test
  void no_page_is_made_of_a_layout_with_errors() throws IOException {
    Files.writeString(folder.resolve("layout.yaml"), Yard.LAYOUT.replace("ram: 1536", "ram: 1"));
    assertThat(session.run("page", "layout.yaml", "--output", "out")).isEqualTo(1);
    assertThat(session.out()).contains("[memory-too-small]");
    assertThat(session.err()).isEqualTo("doublet: nothing was written\n");
    assertThat(folder.resolve("out")).doesNotExist();
  }

  @Test
  void aspects_are_looked_at_all_or_by_name() {
    assertThat(session.run("look", "book.aspects")).isZero();
    assertThat(session.out()).contains("Clear", "Approach", "Stop");
    assertThat(session.run("look", "book.aspects", "Stop")).isZero();
    assertThat(session.out()).contains("Stop").doesNotContain("Clear", "Approach");
    assertThat(session.run("look", "book.aspects", "Stopp")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo("doublet: the rulebook has no aspect \"Stopp\"; did you mean \"Stop\"?\n");
  }

  @Test
  void a_chart_tells_what_announces_nothing() throws IOException {
    Files.writeString(folder.resolve("book.aspects"), Yard.BOOK.replaceAll("then stop", ""));
    assertThat(session.run("chart", "book.aspects", "--output", "out")).isZero();
    assertThat(session.out()).isEqualTo("aspects.html\naspects.md\n");
    assertThat(folder.resolve("out/aspects.html"))
        .content()
        .contains("no sequence of aspects brings a train");
  }

  @Test
  void one_picture_is_printed_of_an_aspect_on_a_form() {
    assertThat(picture("Stop", "one-head")).isZero();
    assertThat(session.out()).startsWith("<svg").contains("red");
    assertThat(picture("Stopp", "one-head")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo("doublet: the rulebook has no aspect \"Stopp\"; did you mean \"Stop\"?\n");
    assertThat(picture("Stop", "two-head")).isEqualTo(2);
    assertThat(session.err()).startsWith("doublet: the rulebook has no form \"two-head\"");
  }

  @Test
  void an_aspect_without_a_pattern_on_a_form_has_no_picture_there() throws IOException {
    Files.writeString(folder.resolve("book.aspects"), Yard.BOOK + "form dwarf { top }\n");
    assertThat(picture("Stop", "dwarf")).isEqualTo(2);
    assertThat(session.out()).isEmpty();
    assertThat(session.err()).isEqualTo("doublet: \"Stop\" has no pattern on form dwarf\n");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "--aspect Stop",
        "--form one-head",
        "--output out --aspect Stop --form one-head"
      })
  void a_chart_goes_into_a_folder_or_is_one_picture(String options) {
    List<String> words = options.isEmpty() ? List.of() : List.of(options.split(" "));
    String[] arguments = new String[2 + words.size()];
    arguments[0] = "chart";
    arguments[1] = "book.aspects";
    for (int i = 0; i < words.size(); i++) {
      arguments[2 + i] = words.get(i);
    }
    assertThat(session.run(arguments)).isEqualTo(2);
    assertThat(session.err()).startsWith("doublet: say where the chart goes");
  }

  @ParameterizedTest
  @ValueSource(strings = {"look", "sequence"})
  void nothing_is_drawn_of_a_broken_book(String verb) throws IOException {
    Files.writeString(folder.resolve("book.aspects"), Yard.BOOK + "form\n");
    assertThat(session.run(verb, "book.aspects")).isEqualTo(1);
    assertThat(session.out()).contains("[syntax]", "1 error").doesNotContain("Approach");
  }

  private int picture(String aspect, String form) {
    return session.run("chart", "book.aspects", "--aspect", aspect, "--form", form);
  }
}
