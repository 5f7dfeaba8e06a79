package dev.doublet.chart;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.commonmark.ext.autolink.AutolinkExtension;
import org.commonmark.ext.gfm.tables.TableBody;
import org.commonmark.ext.gfm.tables.TableCell;
import org.commonmark.ext.gfm.tables.TableHead;
import org.commonmark.ext.gfm.tables.TableRow;
import org.commonmark.ext.gfm.tables.TablesExtension;
import org.commonmark.node.AbstractVisitor;
import org.commonmark.node.Code;
import org.commonmark.node.CustomNode;
import org.commonmark.node.Node;
import org.commonmark.node.Text;
import org.commonmark.parser.Parser;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Whatever a name is, a reader of Markdown, links of bare words included, shows it as it is. */
class MarkdownTest {
  private static final Parser READER =
      Parser.builder()
          .extensions(List.of(TablesExtension.create(), AutolinkExtension.create()))
          .build();

  private static final List<String> PIECES =
      List.of(
          "W1",
          " ",
          "a",
          "_",
          "*",
          "**",
          "`",
          "``",
          "[x](y)",
          "[",
          "](",
          ")",
          "<b>",
          "</b>",
          "<",
          ">",
          "![i](j)",
          "&amp;",
          "&#33;",
          "&",
          "|",
          "\\",
          "\\|",
          "~~",
          "#",
          "www.x.org",
          "http://x.org",
          "a@b.org",
          "mailto:",
          ":",
          "/",
          "-",
          "1.",
          "Ω",
          "é",
          "\"",
          "'",
          "{",
          "$");

  @ParameterizedTest
  @ValueSource(
      strings = {
        "[free](https://example.org)",
        "<img src=x onerror=alert(1)>",
        "https://example.org",
        "www.example.org",
        "me@example.org",
        "![x](y)",
        "*W1*",
        "_W1_",
        "W1|W2",
        "a\\|b",
        "`x`",
        "``",
        "<https://example.org>",
        "&lt;",
        "WWW.EXAMPLE.ORG",
        "[x]: y",
        "ftp://example.org"
      })
  void a_cell_and_a_heading_hold_the_name_and_no_more(String name) {
    assertShown(name);
  }

  @Test
  void names_of_any_pieces_are_shown_as_they_are() {
    Random random = new Random(1957);
    for (int i = 0; i < 5_000; i++) {
      StringBuilder name = new StringBuilder("x");
      for (int n = random.nextInt(6); n >= 0; n--) {
        name.append(PIECES.get(random.nextInt(PIECES.size())));
      }
      assertShown(name.toString());
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Coalpit Yard",
        "W1, two-head with plates DV and number",
        "club/signals/W1",
        "w_1",
        "Brackwater & Northern",
        "05.01.01.01.22.FF.00.10",
        "0.52 mm wide (13 % off)"
      })
  void names_without_a_meaning_in_markdown_are_left_alone(String name) {
    assertThat(Markdown.text(name)).isEqualTo(name);
  }

  private static void assertShown(String name) {
    String page =
        "# A "
            + Markdown.text(name)
            + ", seen\n\n"
            + Markdown.heads(List.of("one", "two"))
            + Markdown.row(List.of(name, "end"));
    List<String> shown = new ArrayList<>();
    READER
        .parse(page)
        .accept(
            new AbstractVisitor() {
              @Override
              public void visit(org.commonmark.node.Heading heading) {
                shown.add(plain(heading));
              }

              @Override
              public void visit(CustomNode node) {
                if (node instanceof TableCell) {
                  shown.add(plain(node).strip());
                } else {
                  assertThat(node)
                      .isInstanceOfAny(TableHead.class, TableBody.class, TableRow.class);
                  visitChildren(node);
                }
              }
            });
    String stripped = name.strip();
    assertThat(shown)
        .as(page)
        .containsExactly("A " + name + ", seen", "one", "two", stripped, "end");
  }

  /** The text of a part that holds nothing but text and code. */
  private static String plain(Node part) {
    StringBuilder text = new StringBuilder();
    for (Node child = part.getFirstChild(); child != null; child = child.getNext()) {
      assertThat(child).isInstanceOfAny(Text.class, Code.class);
      text.append(child instanceof Code code ? code.getLiteral() : ((Text) child).getLiteral());
    }
    return text.toString();
  }
}
