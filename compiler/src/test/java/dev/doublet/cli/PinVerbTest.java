package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** {@code pin}, run as a builder would. */
class PinVerbTest {
  private static final String PINNED =
      Yard.LAYOUT
          .replace("rulebook: book.aspects\n", "rulebook: book.aspects\nnumbering: pinned\n")
          .replace(
              "by: aspect-number}",
              "by: aspect-number, address: 1, values: {0: Stop, 1: Approach, 2: Clear}}")
          .replace("{name: W2}", "{name: W2, address: 2}");

  @TempDir private Path folder;

  @Test
  void a_layout_is_pinned_once_and_checks_clean() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("pin", "layout.yaml")).isZero();
    assertThat(session.out()).isEqualTo("layout.yaml: pinned, with 2 addresses and 3 values\n");
    assertThat(Files.readString(folder.resolve("layout.yaml"))).isEqualTo(PINNED);
    assertThat(session.run("check", "--notes", "layout.yaml")).isZero();
    assertThat(session.out()).doesNotContain("automatic-numbers");
    assertThat(session.run("pin", ".")).isZero();
    assertThat(session.out()).isEqualTo("layout.yaml is pinned already\n");
    assertThat(Files.readString(folder.resolve("layout.yaml"))).isEqualTo(PINNED);
  }

  @Test
  void what_is_said_already_is_not_counted() throws IOException {
    Session session = Yard.in(folder);
    String said =
        Yard.LAYOUT.replace("number}", "number, address: 1}").replace("W2}", "W2, address: 2}");
    Files.writeString(folder.resolve("layout.yaml"), said);
    assertThat(session.run("pin", "layout.yaml")).isZero();
    assertThat(session.out()).isEqualTo("layout.yaml: pinned, with 3 values\n");
  }

  @Test
  void a_dry_run_changes_nothing() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("pin", "--dry-run", "layout.yaml")).isZero();
    assertThat(session.out())
        .contains("--- a/layout.yaml\n", "+numbering: pinned\n", "- {name: W2, address: 2}\n");
    assertThat(Files.readString(folder.resolve("layout.yaml"))).isEqualTo(Yard.LAYOUT);
  }

  @Test
  void a_new_signal_of_a_pinned_layout_is_an_error_until_it_is_pinned() throws IOException {
    String more = PINNED.replace("signals:\n", "signals:\n          - {name: W0, kind: home}\n");
    more =
        more.replace(
            "controllers:",
            "kinds:\n  home: {form: one-head, heads: [searchlight], by: one-per-output, values: {0: Stop, 1: Clear}}\ncontrollers:");
    more = more.replace("          - {name: W0", "        - {name: W0");
    Session session = Yard.in(folder);
    Path layout = Files.writeString(folder.resolve("layout.yaml"), more);
    assertThat(session.run("check", "layout.yaml")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).contains("[unpinned-number]", "add \"address: 3\"");
    // It may have had another address before, which a throttle knows.
    assertThat(session.run("check", "--fix", "layout.yaml")).isEqualTo(Main.FINDINGS);
    assertThat(layout).hasContent(more);
    assertThat(session.run("pin", "layout.yaml")).isZero();
    assertThat(session.out()).isEqualTo("layout.yaml: pinned, with 1 address\n");
    assertThat(layout).hasContent(more.replace("kind: home}", "kind: home, address: 3}"));
  }

  @Test
  void a_layout_with_a_mistake_stays_as_it_is() throws IOException {
    Session session = Yard.in(folder);
    String wrong = Yard.LAYOUT.replace("one-head", "two-head");
    Files.writeString(folder.resolve("layout.yaml"), wrong);
    assertThat(session.run("pin", "layout.yaml")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).contains("[unknown-name]");
    assertThat(session.err()).contains("nothing was written");
    assertThat(Files.readString(folder.resolve("layout.yaml"))).isEqualTo(wrong);
    assertThat(session.run("pin", "none.yaml")).isEqualTo(Main.COULD_NOT_RUN);
  }
}
