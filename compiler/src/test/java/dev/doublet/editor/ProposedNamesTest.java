package dev.doublet.editor;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A name that is proposed can be taken wherever it stands: what comes of it reads as that name. */
class ProposedNamesTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { line 60 }
      colours { red yellow green }
      head searchlight { lamp main shows red, yellow, green }
      form one-head { top }
      imperfect signals read as most restrictive
      aspect "Stop" { number 0  allows stop  on one-head show red }
      aspect "Slow, then: #5" { number 1  allows line then stop  on one-head show yellow }
      aspect "Driver's Clear" { number 2  allows line then line  on one-head show green }
      """;

  private static final String LAYOUT =
      """
      layout: Brackwater Junction
      rulebook: book.aspects
      controllers:
        one:
          flash: 32768
          ram: 2048
          chains:
            main:
              signals:
                - {name: B1, form: one-head, heads: [searchlight], by: aspect-number, aspects: [Stop, HERE]}
      """;

  @ParameterizedTest
  @CsvSource(
      quoteCharacter = '`',
      value = {"|", "Sl|", "\"|", "\"Sl|", "\"|\"", "\"Dr|\"", "'|", "'Dr|'"})
  void in_a_layout(String typed) {
    String now = LAYOUT.replace("HERE", typed);
    for (String name : List.of("Slow, then: #5", "Driver's Clear")) {
      assertThat(taken("layout.yaml", LAYOUT.replace("HERE", "Stop"), now, name))
          .as(typed + " " + name)
          .isEmpty();
    }
  }

  @ParameterizedTest
  @CsvSource(
      quoteCharacter = '`',
      value = {"|", "\"|", "\"Sl|", "\"|\"", "\"Sl|\""})
  void in_a_book(String typed) {
    String now = BOOK + "expect yellow on one-head means " + typed + "\n";
    assertThat(taken("book.aspects", BOOK, now, "Slow, then: #5")).as(typed).isEmpty();
  }

  /** The errors of a text in which a proposal was taken at the bar. */
  private static List<Diagnostic> taken(String file, String legible, String now, String name) {
    int cursor = now.indexOf('|');
    String text = now.replace("|", "");
    Proposal proposal =
        Completion.at(Root.quick(file, texts(file, legible)), new SourceFile(file, text), cursor)
            .stream()
            .filter(p -> p.text().replace("''", "'").contains(name))
            .findFirst()
            .orElseThrow();
    String after =
        new StringBuilder(text)
            .replace(proposal.place().start(), proposal.place().end(), proposal.text())
            .toString();
    return Root.quick(file, texts(file, after)).findings().stream()
        .filter(d -> List.of("syntax", "yaml-syntax", "unknown-name").contains(d.name()))
        .toList();
  }

  private static Texts texts(String file, String text) {
    Map<String, SourceFile> open = new TreeMap<>();
    open.put("book.aspects", new SourceFile("book.aspects", BOOK));
    open.put(file, new SourceFile(file, text));
    return new Texts(
        open,
        path -> {
          throw new SourceReader.Unreadable("there is no such file");
        });
  }
}
