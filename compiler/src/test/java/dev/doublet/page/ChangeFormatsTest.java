package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import dev.doublet.diff.Changes;
import dev.doublet.diff.ChangesText;
import dev.doublet.diff.Event;
import dev.doublet.diff.JsonChanges;
import dev.doublet.golden.Case;
import dev.doublet.golden.Edition;
import dev.doublet.source.Visible;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.commonmark.ext.autolink.AutolinkExtension;
import org.commonmark.ext.gfm.tables.TableBody;
import org.commonmark.ext.gfm.tables.TableCell;
import org.commonmark.ext.gfm.tables.TableRow;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.CustomNode;
import org.commonmark.node.HtmlBlock;
import org.commonmark.node.Node;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Changes are told alike in every format, and whatever a name is, it stays a name. */
class ChangeFormatsTest {
  private static final Parser READER =
      Parser.builder()
          .extensions(List.of(TablesExtension.create(), AutolinkExtension.create()))
          .build();
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final Path CASES = Path.of("src/test/resources/cases/diff");

  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal 60 }
      colours { red green }
      head searchlight { lamp main shows red, green }
      form one-head { top }
      imperfect signals read as most restrictive
      cover die-out because "a drill"
      aspect "NAME" { number 1  allows normal then normal  on one-head show green }
      aspect "Stop" { number 0  allows stop  on one-head show red }
      """;

  static Stream<Path> pages() {
    Path examples = Path.of("src/main/java/dev/doublet/diff");
    return Stream.concat(Case.pages(examples).stream(), Case.pages(CASES).stream());
  }

  private static Changes changes(Path page) {
    return Edition.changes(page.startsWith(CASES) ? Case.of(page) : Case.section(page, "Example"));
  }

  @ParameterizedTest
  @MethodSource("pages")
  void the_json_is_valid_and_whole(Path page) throws IOException {
    Changes changes = changes(page);
    JsonNode json = JSON.readTree(JsonChanges.of(changes));
    assertThat(schema().validate(json)).isEmpty();
    assertThat(json.get("changes")).hasSameSizeAs(changes.events());
    assertThat(json.get("changes").findValuesAsText("fingerprint"))
        .doesNotHaveDuplicates()
        .allMatch(print -> print.matches("[0-9a-f]{16}"));
  }

  @Test
  void the_schema_tells_wrong_documents() throws IOException {
    assertThat(schema().validate(JSON.readTree("{\"format\": 1}"))).isNotEmpty();
  }

  @ParameterizedTest
  @MethodSource("pages")
  void a_comment_has_a_row_for_each_change_and_nothing_else(Path page) {
    Changes changes = changes(page);
    List<List<String>> rows = rows(ReviewComment.of(changes));
    List<Event> shown = changes.events().subList(0, Math.min(40, changes.events().size()));
    assertThat(rows).hasSameSizeAs(shown);
    for (int i = 0; i < rows.size(); i++) {
      Event event = shown.get(i);
      assertThat(rows.get(i).get(0))
          .startsWith(cut(event.sentence()))
          .contains(event.sort().word());
      assertThat(rows.get(i).get(1)).endsWith(cut(event.before()));
      assertThat(rows.get(i).get(2)).endsWith(cut(event.after()));
    }
  }

  @ParameterizedTest
  @MethodSource("pages")
  void a_page_draws_what_was_seen_and_what_is_seen(Path page) {
    Changes changes = changes(page);
    String html = ChangesPage.html(changes);
    long seen =
        changes.events().stream()
            .flatMap(e -> Stream.of(e.sightBefore(), e.sightAfter()))
            .filter(java.util.Optional::isPresent)
            .count();
    // One more holds the heads that all of them share.
    assertThat(html.split("<svg ", -1)).hasSize((int) seen + 2);
    changes.events().forEach(e -> assertThat(html).contains(Xml.text(e.sentence())));
    assertThat(html).doesNotContain("href=\"http", "src=", "url(", "<script", "@keyframes");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<script>alert(1)</script>",
        "<img src=x onerror=alert(1)>",
        "[free](https://example.org)",
        "https://example.org",
        "www.example.org",
        "@everyone",
        "fixes #12",
        "GH-12",
        "a|b",
        "a\\|b",
        "`x`",
        "```",
        "-->",
        "*bold* _so_",
        "![x](y)",
        "&lt;b&gt;",
        "evil \u202Egnp.exe",
        "soft\u00ADhyphen",
        "| --- |"
      })
  void a_name_is_a_name_in_every_format(String name) {
    Changes changes =
        Edition.changes(
            new Edition(Map.of("book.aspects", BOOK.replace("NAME", "Clear"))),
            new Edition(
                Map.of(
                    "book.aspects",
                    BOOK.replace("NAME", name).replace("normal then normal", "normal then stop"))));
    assertThat(changes.events()).isNotEmpty();
    String comment = ReviewComment.of(changes);
    List<String> told = rows(comment).stream().map(r -> r.get(0)).toList();
    assertThat(told).anyMatch(cell -> cell.contains(Visible.line(name).strip()));
    assertThat(comment.lines().filter(l -> l.startsWith("<!--"))).hasSize(2);
    String html = ChangesPage.html(changes);
    assertThat(html).contains(Xml.text(name)).doesNotContain("<script>", "<img");
    assertThat(ChangesText.of(changes)).contains(Visible.line(name));
    for (String text : List.of(comment, html, ChangesText.of(changes))) {
      assertThat(text.codePoints().filter(c -> c != '\n').noneMatch(Visible::isHidden)).isTrue();
    }
    assertThat(JsonChanges.of(changes)).matches(text -> text.chars().allMatch(c -> c < 0x7F));
  }

  /** A mention is a call of a person, and a number a link, wherever a forge finds it in words. */
  @Test
  void nobody_is_called_and_no_other_review_is_linked() {
    Changes changes =
        Edition.changes(
            new Edition(Map.of("book.aspects", BOOK.replace("NAME", "Clear"))),
            new Edition(Map.of("book.aspects", BOOK.replace("NAME", "Ask @all of #12, GH-3"))));
    READER
        .parse(ReviewComment.of(changes))
        .accept(
            new AbstractVisitor() {
              @Override
              public void visit(Text text) {
                assertThat(text.getLiteral()).doesNotContain("@", "#", "GH-");
              }
            });
  }

  @Test
  void of_very_many_changes_a_comment_shows_the_worst_and_counts_the_rest() {
    StringBuilder old = new StringBuilder(BOOK.replace("NAME", "Clear"));
    StringBuilder now = new StringBuilder(old);
    for (int i = 2; i < 72; i++) {
      String aspect = "aspect \"A%d\" { number %d  allows normal then stop }\n";
      old.append(String.format(java.util.Locale.ROOT, aspect, i, i));
      now.append(String.format(java.util.Locale.ROOT, aspect, i, i + 100));
    }
    now.append("aspect \"Worse\" { allows normal then stop  on one-head show dark }\n");
    Changes changes =
        Edition.changes(
            new Edition(Map.of("book.aspects", old.toString())),
            new Edition(Map.of("book.aspects", now.toString())));
    String comment = ReviewComment.of(changes);
    assertThat(rows(comment)).hasSize(40);
    assertThat(comment)
        .contains((changes.events().size() - 40) + " more; `doublet diff` lists them.")
        .hasSizeLessThan(65_536);
    assertThat(ChangesText.of(changes)).contains("40 more of number-changed are not shown.");
  }

  private static String cut(String words) {
    String line = Visible.line(words);
    return (line.length() > 300 ? line.substring(0, 300) : line).strip();
  }

  /** The cells of all rows, after asserting that there is no markup but ours. */
  private static List<List<String>> rows(String comment) {
    assertThat(comment).startsWith(ReviewComment.MARK + "\n<!-- fingerprint ");
    List<List<String>> rows = new ArrayList<>();
    READER
        .parse(comment)
        .accept(
            new AbstractVisitor() {
              @Override
              public void visit(HtmlBlock block) {
                assertThat(block.getLiteral()).startsWith("<!-- ").endsWith(" -->");
              }

              @Override
              public void visit(org.commonmark.node.HtmlInline html) {
                throw new AssertionError(html.getLiteral());
              }

              @Override
              public void visit(org.commonmark.node.Link link) {
                throw new AssertionError(link.getDestination());
              }

              @Override
              public void visit(org.commonmark.node.Image image) {
                throw new AssertionError(image.getDestination());
              }

              @Override
              public void visit(org.commonmark.node.Emphasis marked) {
                throw new AssertionError(marked);
              }

              @Override
              public void visit(CustomNode node) {
                if (node instanceof TableRow && node.getParent() instanceof TableBody) {
                  List<String> cells = new ArrayList<>();
                  for (Node c = node.getFirstChild(); c != null; c = c.getNext()) {
                    assertThat(c).isInstanceOf(TableCell.class);
                    cells.add(plain(c));
                  }
                  assertThat(cells).hasSize(3);
                  rows.add(cells);
                } else {
                  visitChildren(node);
                }
              }
            });
    return rows;
  }

  private static String plain(Node part) {
    StringBuilder text = new StringBuilder();
    for (Node child = part.getFirstChild(); child != null; child = child.getNext()) {
      assertThat(child).isInstanceOfAny(Text.class, Code.class);
      text.append(child instanceof Code code ? code.getLiteral() : ((Text) child).getLiteral());
    }
    return text.toString().strip();
  }

  private static Schema schema() throws IOException {
    try (InputStream in =
        ChangeFormatsTest.class.getResourceAsStream("/dev/doublet/changes.schema.json")) {
      return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
          .getSchema(JSON.readTree(in));
    }
  }
}
