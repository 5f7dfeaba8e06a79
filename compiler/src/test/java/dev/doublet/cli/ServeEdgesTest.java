package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import dev.doublet.serve.Server;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.eclipse.lsp4j.CompletionParams;
import org.eclipse.lsp4j.DidChangeTextDocumentParams;
import org.eclipse.lsp4j.DidOpenTextDocumentParams;
import org.eclipse.lsp4j.HoverParams;
import org.eclipse.lsp4j.Position;
import org.eclipse.lsp4j.Range;
import org.eclipse.lsp4j.ReferenceContext;
import org.eclipse.lsp4j.ReferenceParams;
import org.eclipse.lsp4j.RenameParams;
import org.eclipse.lsp4j.TextDocumentContentChangeEvent;
import org.eclipse.lsp4j.TextDocumentIdentifier;
import org.eclipse.lsp4j.TextDocumentItem;
import org.eclipse.lsp4j.TextEdit;
import org.eclipse.lsp4j.VersionedTextDocumentIdentifier;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What editors and authors do at the edges of the protocol. */
class ServeEdgesTest {
  private static final String BOOK = "signals.aspects";
  private static final String LAYOUT = "layout.yaml";
  private static final String OTHER = "other-layout.yaml";

  private static final String BOOK_TEXT =
      """
      rulebook "Our Railway" edition 1
      speeds in mph { line 40 }
      colours { red green }
      rhythms { winking 50 per minute }
      head lantern { lamp main shows red, green }
      form pole { top }
      plate letter
      aspect "Stop"  { number 0  indicates "Stop."  allows stop  on pole show red }
      aspect "Clear" { number 1  allows line then line  on pole show green }
      aspect "Call"  { number 2  allows unsaid  on pole with letter plate show winking red }
      """;

  private static final String LAYOUT_TEXT =
      """
      layout: Ours
      rulebook: signals.aspects
      otherwise: most-restrictive
      buses:
        track: {speaks: dcc}
      supplies:
        shed: {volts: 5, amps: 1}
      leds:
        reel: {order: GRB}
      kinds:
        home: {form: pole, heads: [lantern], plates: [letter], aspects: [Stop, Clear], by: aspect-number, bus: track}
      controllers:
        main:
          flash: 28672
          ram: 1536
          chains:
            first:
              leds: reel
              supply: shed
              signals:
              - {name: S1, kind: home, address: 1}  # 😀
              - {name: "😀", kind: home, address: 2}
      """;

  @TempDir Path folder;

  @BeforeEach
  void write_a_railway() throws IOException {
    Files.writeString(folder.resolve(BOOK), BOOK_TEXT);
    Files.writeString(folder.resolve(LAYOUT), LAYOUT_TEXT);
    Files.writeString(folder.resolve(OTHER), LAYOUT_TEXT.replace("Ours", "Theirs"));
  }

  private static Position in(String text, String words) {
    Position at = Editor.at(text, words, 1);
    return new Position(at.getLine(), at.getCharacter() + 1);
  }

  private Map<String, List<TextEdit>> renamed(
      Editor editor, String file, Position at, String name) {
    return Editor.get(
            editor
                .server()
                .getTextDocumentService()
                .rename(new RenameParams(editor.id(file), at, name)))
        .getChanges();
  }

  static String applied(String text, List<TextEdit> edits) {
    List<String> lines = new ArrayList<>(List.of(text.split("\n", -1)));
    List<TextEdit> last = new ArrayList<>(edits);
    last.sort(
        java.util.Comparator.comparing((TextEdit e) -> e.getRange().getStart().getLine())
            .thenComparing(e -> e.getRange().getStart().getCharacter())
            .reversed());
    for (TextEdit edit : last) {
      int line = edit.getRange().getStart().getLine();
      String old = lines.get(line);
      lines.set(
          line,
          old.substring(0, edit.getRange().getStart().getCharacter())
              + edit.getNewText()
              + old.substring(edit.getRange().getEnd().getCharacter()));
    }
    return String.join("\n", lines);
  }

  @ParameterizedTest
  @ValueSource(strings = {"letter", "pole", "line 40", "lantern", "winking 50", "\"Clear\""})
  void a_name_of_a_book_is_renamed_in_both_its_layouts(String words) throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, BOOK_TEXT);
      editor.shown(BOOK, all -> true);
      var edits = renamed(editor, BOOK, in(BOOK_TEXT, words), "brandnew");
      String old = words.replaceAll(" .*|\"", "");
      String book = applied(BOOK_TEXT, edits.get(editor.id(BOOK).getUri()));
      assertThat(book).contains("brandnew");
      boolean inLayouts = LAYOUT_TEXT.matches("(?s).*[ \\[]" + old + "[,\\]].*");
      assertThat(edits.keySet()).hasSize(inLayouts ? 3 : 1);
      Files.writeString(folder.resolve(BOOK), book);
      for (String layout : List.of(LAYOUT, OTHER)) {
        String text = Files.readString(folder.resolve(layout));
        Files.writeString(
            folder.resolve(layout),
            applied(text, edits.getOrDefault(editor.id(layout).getUri(), List.of())));
      }
      Session session = new Session(folder);
      session.run("check", ".");
      assertThat(session.out()).doesNotContain("error");
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"home", "track", "shed", "reel", "S1"})
  void a_name_of_a_layout_is_renamed_in_it_alone(String word) throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(LAYOUT, LAYOUT_TEXT);
      editor.shown(LAYOUT, all -> true);
      for (String name :
          List.of(
              "x", "true", "12", "null", "a: b", "a #b", "- x", "{", "it's", "\u00e9", "0x1",
              "~")) {
        var edits = renamed(editor, LAYOUT, in(LAYOUT_TEXT, word), name);
        assertThat(edits).hasSize(1);
        Files.writeString(
            folder.resolve(LAYOUT), applied(LAYOUT_TEXT, edits.get(editor.id(LAYOUT).getUri())));
        Session session = new Session(folder);
        session.run("check", LAYOUT);
        assertThat(session.out()).as(name).doesNotContain("error");
      }
      for (String name : List.of("", " ", "a\nb", "a\tb", " a", "a ", "\u202Ex", "a\u0000")) {
        assertThatThrownBy(() -> renamed(editor, LAYOUT, in(LAYOUT_TEXT, word), name))
            .as("%s -> [%s]", word, name)
            .isInstanceOf(AssertionError.class);
      }
    }
  }

  @Test
  void places_behind_a_letter_of_two_units_are_met() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(LAYOUT, LAYOUT_TEXT);
      editor.shown(LAYOUT, all -> true);
      String line = "- {name: \"😀\", kind: home";
      Position start = Editor.at(LAYOUT_TEXT, line, 1);
      Position kind = new Position(start.getLine(), start.getCharacter() + line.length() - 2);
      var references =
          Editor.get(
              editor
                  .server()
                  .getTextDocumentService()
                  .references(
                      new ReferenceParams(editor.id(LAYOUT), kind, new ReferenceContext(true))));
      assertThat(references).hasSize(3);
      assertThat(references)
          .anySatisfy(
              r -> {
                assertThat(r.getRange().getEnd())
                    .isEqualTo(new Position(start.getLine(), start.getCharacter() + line.length()));
              });
    }
  }

  @Test
  void lines_may_end_as_in_other_systems() throws Exception {
    String text = BOOK_TEXT.replace("\n", "\r\n").replace("show green", "show gren");
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, text);
      var shown = editor.shown(BOOK, all -> !all.isEmpty());
      assertThat(shown.get(0).getRange().getStart()).isEqualTo(Editor.at(text, "gren }", 1));
      editor.change(BOOK, shown.get(0).getRange(), "green");
      editor.shown(
          BOOK, all -> all.stream().noneMatch(d -> d.getMessage().getLeft().contains("gren\"")));
    }
  }

  @Test
  void several_changes_of_one_message_follow_one_another() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, BOOK_TEXT);
      editor.shown(BOOK, all -> true);
      Position at = Editor.at(BOOK_TEXT, "green }", 2);
      editor
          .server()
          .getTextDocumentService()
          .didChange(
              new DidChangeTextDocumentParams(
                  new VersionedTextDocumentIdentifier(editor.id(BOOK).getUri(), 2),
                  List.of(
                      new TextDocumentContentChangeEvent(new Range(at, at), "x\n"),
                      new TextDocumentContentChangeEvent(
                          new Range(at, new Position(at.getLine() + 1, 2)), "dim gr"))));
      editor.change(BOOK, new Range(at, new Position(at.getLine(), at.getCharacter() + 4)), "");
      assertThat(
              Editor.get(
                  editor
                      .server()
                      .getTextDocumentService()
                      .hover(
                          new HoverParams(
                              editor.id(BOOK), new Position(at.getLine(), at.getCharacter() + 1)))))
          .isNotNull();
    }
  }

  @Test
  void a_text_that_was_never_saved_and_one_elsewhere_are_read(@TempDir Path elsewhere)
      throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open("unsaved.aspects", "aspect {");
      editor.shown("unsaved.aspects", all -> !all.isEmpty());
      String far = elsewhere.resolve("far.aspects").toString();
      editor.open(far, "aspect {");
      editor.shown(far, all -> !all.isEmpty());
      editor.closeText(far);
      editor.shown(far, List::isEmpty);
      editor.open(far, "aspect {");
      editor.shown(far, all -> !all.isEmpty());
    }
  }

  @Test
  void a_text_that_is_no_file_gives_no_answer_and_no_fault() throws Exception {
    try (Editor editor = new Editor(folder)) {
      for (String uri :
          List.of("untitled:Untitled-1", "git:/x.aspects", "file://host/x", "::", "")) {
        var service = editor.server().getTextDocumentService();
        service.didOpen(
            new DidOpenTextDocumentParams(new TextDocumentItem(uri, "doublet", 1, "aspect {")));
        var id = new TextDocumentIdentifier(uri);
        assertThat(Editor.get(service.hover(new HoverParams(id, new Position(3, 3))))).isNull();
        assertThat(
                Editor.get(service.completion(new CompletionParams(id, new Position(0, 2))))
                    .getLeft())
            .isEmpty();
      }
    }
  }

  @Test
  void a_layout_whose_book_is_missing_says_so_until_it_is_written() throws Exception {
    Files.delete(folder.resolve(BOOK));
    try (Editor editor = new Editor(folder)) {
      editor.open(LAYOUT, LAYOUT_TEXT);
      editor.shown(
          LAYOUT, all -> all.stream().anyMatch(d -> d.getCode().getLeft().equals("missing-file")));
      editor.open(BOOK, BOOK_TEXT);
      editor.shown(
          LAYOUT, all -> all.stream().noneMatch(d -> d.getCode().getLeft().equals("missing-file")));
    }
  }

  @Test
  void a_line_of_two_million_letters_is_told_of() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, BOOK_TEXT + "# " + "x".repeat(2_000_000));
      editor.shown(BOOK, all -> true);
      editor.change(BOOK, BOOK_TEXT + "\"" + "x".repeat(2_000_000));
      editor.shown(BOOK, all -> !all.isEmpty());
      editor.change(BOOK, BOOK_TEXT + "{".repeat(20_000));
      editor.shown(BOOK, all -> !all.isEmpty());
      editor.open(LAYOUT, LAYOUT_TEXT + "x: " + "[".repeat(20_000));
      editor.shown(LAYOUT, all -> !all.isEmpty());
    }
  }

  @Test
  void nothing_is_proposed_in_comments_and_sentences() throws Exception {
    try (Editor editor = new Editor(folder)) {
      for (String end :
          List.of(
              "# a",
              "aspect \"X\" { indicates \"Pro",
              "cover lamp-out because \"a",
              "accept no-stop of \"Clear\" on pole because \"a",
              "rulebook \"")) {
        proposesNothing(editor, BOOK, BOOK_TEXT + end);
      }
      for (String end : List.of("# a", "accept:\n- {because: \"a", "prices: {currency: \"")) {
        proposesNothing(editor, LAYOUT, LAYOUT_TEXT + end);
      }
      proposesNothing(editor, LAYOUT, LAYOUT_TEXT.replaceFirst("\n$", "") + " # a");
    }
  }

  private void proposesNothing(Editor editor, String name, String text) {
    editor.open(name, text);
    String[] lines = text.split("\n", -1);
    Position end = new Position(lines.length - 1, lines[lines.length - 1].length());
    assertThat(
            Editor.get(
                    editor
                        .server()
                        .getTextDocumentService()
                        .completion(new CompletionParams(editor.id(name), end)))
                .getLeft())
        .as(lines[lines.length - 1])
        .isEmpty();
  }

  /** What a server says to messages, and whether the session ended as the protocol asks. */
  private String said(String... messages) throws InterruptedException {
    StringBuilder all = new StringBuilder();
    for (String message : messages) {
      all.append("Content-Length: " + message.length() + "\r\n\r\n" + message);
    }
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    boolean ended =
        Server.serve(
            new ByteArrayInputStream(all.toString().getBytes(StandardCharsets.UTF_8)),
            out,
            uris -> new EditorFolder(folder, uris));
    return ended + " " + out.toString(StandardCharsets.UTF_8);
  }

  private static final String HELLO =
      "{\"jsonrpc\":\"2.0\",\"id\":1,\"method\":\"initialize\",\"params\":{\"capabilities\":{}}}";
  private static final String SHUTDOWN = "{\"jsonrpc\":\"2.0\",\"id\":9,\"method\":\"shutdown\"}";
  private static final String EXIT = "{\"jsonrpc\":\"2.0\",\"method\":\"exit\"}";
  private static final String HOVER =
      "{\"jsonrpc\":\"2.0\",\"id\":2,\"method\":\"textDocument/hover\",\"params\":"
          + "{\"textDocument\":{\"uri\":\"file:///x.aspects\"},\"position\":{\"line\":0,\"character\":0}}}";
  private static final String OPEN =
      "{\"jsonrpc\":\"2.0\",\"method\":\"textDocument/didOpen\",\"params\":{\"textDocument\":"
          + "{\"uri\":\"file:///x.aspects\",\"languageId\":\"d\",\"version\":1,\"text\":\"\"}}}";

  @Test
  void what_comes_before_the_greeting_is_refused_and_told_why() throws Exception {
    assertThat(said(HOVER, OPEN, HELLO, HOVER, SHUTDOWN, HOVER, EXIT))
        .startsWith("true ")
        .containsOnlyOnce("-32002")
        .containsOnlyOnce("-32600");
  }

  @Test
  void an_unknown_request_is_told_to_be_unknown() throws Exception {
    String unknown = "{\"jsonrpc\":\"2.0\",\"id\":5,\"method\":\"doublet/none\",\"params\":{}}";
    assertThat(said(HELLO, unknown, SHUTDOWN, EXIT)).startsWith("true ").contains("-32601");
  }

  @Test
  void a_session_that_is_cut_off_ends_and_is_told_from_one_that_was_shut_down() throws Exception {
    assertThat(said(HELLO)).startsWith("false ");
    assertThat(said(HELLO, EXIT)).startsWith("false ");
    assertThat(said()).startsWith("false ");
    assertThat(said("{ no json")).startsWith("false ");
    assertThat(said(HELLO, SHUTDOWN, EXIT)).startsWith("true ");
    Session session = new Session(folder);
    assertThat(session.run("serve")).isEqualTo(1);
  }

  @ParameterizedTest
  @ValueSource(strings = {"{\"a\": x", "[]", "{", "\"\"", "5", "{\"id\": 9, \"method\":"})
  void a_broken_message_is_told_of_in_one_sentence(String broken) {
    String exit = "{\"jsonrpc\": \"2.0\", \"method\": \"exit\"}";
    String shutdown = "{\"jsonrpc\": \"2.0\", \"id\": 1, \"method\": \"shutdown\"}";
    Session session = new Session(folder).with(framed(broken) + framed(shutdown) + framed(exit));
    assertThat(session.run("serve")).isZero();
    assertThat(session.err())
        .isEqualTo("doublet: a message of the editor was passed over, as it cannot be read\n");
    assertThat(session.out()).contains("\"id\":1,\"result\"");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "\"textDocument/hover\"",
        "\"textDocument/hover\", \"params\": null",
        "\"textDocument/hover\", \"params\": {}",
        "\"textDocument/formatting\", \"params\": {}",
        "\"textDocument/codeAction\", \"params\": {\"textDocument\": {\"uri\": \"file:///a\"}}"
      })
  void a_request_that_lacks_something_is_refused_without_innards(String lacking) throws Exception {
    String request = "{\"jsonrpc\": \"2.0\", \"id\": 7, \"method\": " + lacking + "}";
    assertThat(said(HELLO, request, SHUTDOWN, EXIT))
        .startsWith("true ")
        .contains("\"id\":7,\"error\":{\"code\":-32603,\"message\":\"this request lacks")
        .doesNotContain("\\tat ")
        .doesNotContain("\"data\"");
  }

  @Test
  void a_notice_that_lacks_something_is_told_of_in_one_sentence() {
    String open = "{\"jsonrpc\": \"2.0\", \"method\": \"textDocument/didOpen\"}";
    String exit = "{\"jsonrpc\": \"2.0\", \"method\": \"exit\"}";
    String shutdown = "{\"jsonrpc\": \"2.0\", \"id\": 1, \"method\": \"shutdown\"}";
    Session session = new Session(folder).with(framed(open) + framed(shutdown) + framed(exit));
    assertThat(session.run("serve")).isZero();
    assertThat(session.err())
        .matches(
            "doublet: a message of the editor was passed over, as it lacks what the protocol asks"
                + " for, or Doublet is at fault \\(\\w+\\)\n");
  }

  private static String framed(String message) {
    return "Content-Length: " + message.length() + "\r\n\r\n" + message;
  }
}
