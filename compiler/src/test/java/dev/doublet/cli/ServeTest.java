package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.stream.Stream;
import org.eclipse.lsp4j.CodeActionContext;
import org.eclipse.lsp4j.CodeActionParams;
import org.eclipse.lsp4j.CompletionItem;
import org.eclipse.lsp4j.CompletionParams;
import org.eclipse.lsp4j.DefinitionParams;
import org.eclipse.lsp4j.Diagnostic;
import org.eclipse.lsp4j.DocumentFormattingParams;
import org.eclipse.lsp4j.DocumentSymbolParams;
import org.eclipse.lsp4j.FormattingOptions;
import org.eclipse.lsp4j.HoverParams;
import org.eclipse.lsp4j.Position;
import org.eclipse.lsp4j.Range;
import org.eclipse.lsp4j.ReferenceContext;
import org.eclipse.lsp4j.ReferenceParams;
import org.eclipse.lsp4j.RenameParams;
import org.eclipse.lsp4j.TextEdit;
import org.eclipse.lsp4j.WorkspaceEdit;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A session with an editor, over pipes. */
class ServeTest {
  private static final String BOOK = "rulebooks/brackwater.aspects";
  private static final String LAYOUT = "examples/brackwater/layout.yaml";

  @TempDir Path folder;
  private String book;
  private String layout;

  @BeforeEach
  void copy_the_demo() throws IOException {
    for (String part : List.of("rulebooks", "examples/brackwater")) {
      try (Stream<Path> files = Files.walk(Path.of("..").resolve(part))) {
        for (Path file : files.filter(Files::isRegularFile).toList()) {
          Path copy = folder.resolve(Path.of("..").relativize(file).toString());
          Files.createDirectories(copy.getParent());
          Files.copy(file, copy);
        }
      }
    }
    book = Files.readString(folder.resolve(BOOK));
    layout = Files.readString(folder.resolve(LAYOUT));
  }

  @Test
  void findings_are_those_of_the_command_line_in_its_words() throws Exception {
    Path mistakes = folder.resolve("examples/mistakes");
    Files.createDirectories(mistakes);
    String text = book.replaceFirst("yellow over red", "green over red");
    Files.writeString(folder.resolve(BOOK), text);
    Session session = new Session(folder);
    session.run("check", ".");
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, text);
      editor.open(LAYOUT, layout);
      List<Diagnostic> shown =
          editor.shown(
              BOOK,
              all ->
                  all.stream()
                      .anyMatch(
                          d -> code(d).equals("false-proceed") || code(d).equals("twin-aspects")));
      for (Diagnostic finding : shown) {
        for (String line : message(finding).split("\n")) {
          assertThat(session.out()).contains(line);
        }
      }
      assertThat(shown).isNotEmpty();
    }
  }

  @Test
  void what_is_typed_counts_and_not_what_is_saved() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, book);
      editor.shown(BOOK, List::isEmpty);
      editor.change(BOOK, book.replaceFirst("show green", "show gren"));
      List<Diagnostic> shown = editor.shown(BOOK, all -> !all.isEmpty());
      assertThat(message(shown.get(0))).contains("gren").contains("Do: ");
      Position from = Editor.at(book.replaceFirst("show green", "show gren"), "gren\n", 1);
      editor.change(
          BOOK, new Range(from, new Position(from.getLine(), from.getCharacter() + 4)), "green");
      editor.shown(BOOK, List::isEmpty);
      editor.closeText(BOOK);
    }
  }

  @Test
  void names_are_found_and_renamed_everywhere() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, book);
      editor.open(LAYOUT, layout);
      editor.shown(LAYOUT, all -> true);
      var service = editor.server().getTextDocumentService();
      Position use = Editor.at(book, "medium then", 1);
      var definition =
          Editor.get(service.definition(new DefinitionParams(editor.id(BOOK), use))).getLeft();
      assertThat(definition).singleElement();
      assertThat(definition.get(0).getRange().getStart()).isEqualTo(Editor.at(book, "medium ", 1));
      var references =
          Editor.get(
              service.references(
                  new ReferenceParams(editor.id(BOOK), use, new ReferenceContext(true))));
      assertThat(references).hasSizeGreaterThan(1);
      WorkspaceEdit edit =
          Editor.get(service.rename(new RenameParams(editor.id(BOOK), use, "middling")));
      assertThat(edit.getChanges().values().stream().mapToInt(List::size).sum())
          .isEqualTo(references.size());
      for (String wrong : List.of("slow", "", "a b", "stop")) {
        assertThatThrownBy(
                () -> Editor.get(service.rename(new RenameParams(editor.id(BOOK), use, wrong))))
            .isInstanceOf(AssertionError.class);
      }
    }
  }

  @Test
  void a_name_of_the_book_is_renamed_where_a_layout_uses_it() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, book);
      editor.open(LAYOUT, layout);
      editor.shown(LAYOUT, all -> true);
      var service = editor.server().getTextDocumentService();
      Position use = Editor.at(layout, "two-head", 1);
      var definition =
          Editor.get(service.definition(new DefinitionParams(editor.id(LAYOUT), use))).getLeft();
      assertThat(definition).singleElement();
      assertThat(definition.get(0).getUri()).endsWith(BOOK);
      WorkspaceEdit edit =
          Editor.get(service.rename(new RenameParams(editor.id(LAYOUT), use, "pair")));
      assertThat(edit.getChanges().keySet())
          .anyMatch(uri -> uri.endsWith(BOOK))
          .anyMatch(uri -> uri.endsWith(LAYOUT));
    }
  }

  @Test
  void signals_that_are_written_as_one_are_found_and_not_renamed() throws Exception {
    layout = layout.replaceFirst("name: P5", "name: P5 to P7");
    assertThat(layout).contains("P5 to P7");
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, book);
      editor.open(LAYOUT, layout);
      editor.shown(LAYOUT, all -> true);
      var service = editor.server().getTextDocumentService();
      Position use = Editor.at(layout, "P5 to P7", 1);
      var definition =
          Editor.get(service.definition(new DefinitionParams(editor.id(LAYOUT), use))).getLeft();
      assertThat(definition).singleElement();
      assertThatThrownBy(
              () -> Editor.get(service.rename(new RenameParams(editor.id(LAYOUT), use, "Q5"))))
          .hasMessageContaining("several signals");
    }
  }

  @Test
  void an_aspect_is_renamed_in_the_book_and_in_its_layouts() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, book);
      editor.open(LAYOUT, layout);
      editor.shown(LAYOUT, all -> true);
      var service = editor.server().getTextDocumentService();
      Position use = Editor.at(layout, "Slow Clear", 1);
      var definition =
          Editor.get(service.definition(new DefinitionParams(editor.id(LAYOUT), use))).getLeft();
      assertThat(definition).singleElement();
      assertThat(definition.get(0).getUri()).endsWith(BOOK);
      WorkspaceEdit edit =
          Editor.get(service.rename(new RenameParams(editor.id(LAYOUT), use, "Slow: Proceed")));
      // The tests of the book are renamed with it.
      assertThat(edit.getChanges()).hasSize(3);
      book = applied(book, edit.getChanges().get(editor.id(BOOK).getUri()));
      layout = applied(layout, edit.getChanges().get(editor.id(LAYOUT).getUri()));
      assertThat(book + layout).doesNotContain("Slow Clear");
      editor.change(BOOK, book);
      editor.change(LAYOUT, layout);
      editor.shown(BOOK, List::isEmpty);
      editor.shown(LAYOUT, List::isEmpty);
    }
  }

  private static String applied(String text, List<TextEdit> edits) {
    List<TextEdit> last =
        edits.stream()
            .sorted(
                Comparator.comparing((TextEdit e) -> e.getRange().getStart().getLine())
                    .thenComparing(e -> e.getRange().getStart().getCharacter())
                    .reversed())
            .toList();
    StringBuilder now = new StringBuilder(text);
    for (TextEdit edit : last) {
      now.replace(
          offset(text, edit.getRange().getStart()),
          offset(text, edit.getRange().getEnd()),
          edit.getNewText());
    }
    return now.toString();
  }

  private static int offset(String text, Position position) {
    int start = 0;
    for (int line = 0; line < position.getLine(); line++) {
      start = text.indexOf('\n', start) + 1;
    }
    return start + position.getCharacter();
  }

  @Test
  void a_text_is_set_in_its_form_and_a_broken_one_left_alone() throws Exception {
    try (Editor editor = new Editor(folder)) {
      String untidy = book.replaceFirst("(?m)^  allows", "      allows");
      editor.open(BOOK, untidy);
      var service = editor.server().getTextDocumentService();
      var all = new DocumentFormattingParams(editor.id(BOOK), new FormattingOptions(2, true));
      List<TextEdit> edits = new ArrayList<>(Editor.get(service.formatting(all)));
      assertThat(applied(untidy, edits)).isEqualTo(book);
      editor.change(BOOK, untidy + "aspect {");
      assertThat(Editor.get(service.formatting(all))).isEmpty();
    }
  }

  @Test
  void what_may_come_next_is_proposed_with_its_meaning() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, book);
      assertThat(proposals(editor, BOOK, book, "\naspect \"New\" { allows "))
          .anyMatch(i -> i.getLabel().equals("slow") && i.getDetail().contains("mph"))
          .anyMatch(i -> i.getLabel().equals("stop"));
      assertThat(proposals(editor, BOOK, book, "\naspect \"New\" { on "))
          .anyMatch(i -> i.getLabel().equals("two-head"));
      editor.change(BOOK, book);
      editor.open(LAYOUT, layout);
      editor.shown(LAYOUT, all -> true);
      assertThat(proposals(editor, LAYOUT, layout, "\nkinds:\n  new: {form: "))
          .anyMatch(i -> i.getLabel().equals("two-head"));
      assertThat(proposals(editor, LAYOUT, layout, "\nkinds:\n  new: {"))
          .anyMatch(i -> i.getLabel().equals("form:") && i.getDetail().contains("Its form"));
    }
  }

  private static List<CompletionItem> proposals(
      Editor editor, String name, String text, String more) {
    String now = text + more;
    editor.change(name, now);
    String[] lines = now.split("\n", -1);
    Position end = new Position(lines.length - 1, lines[lines.length - 1].length());
    return Editor.get(
            editor
                .server()
                .getTextDocumentService()
                .completion(new CompletionParams(editor.id(name), end)))
        .getLeft();
  }

  @Test
  void a_name_and_a_word_say_what_they_mean() throws Exception {
    try (Editor editor = new Editor(folder)) {
      editor.open(BOOK, book);
      editor.open(LAYOUT, layout);
      assertThat(hover(editor, BOOK, Editor.at(book, "\"Clear\"", 1)))
          .contains("allows ")
          .contains("two-head: ");
      assertThat(hover(editor, BOOK, Editor.at(book, "allows ", 1))).contains("next signal");
      assertThat(hover(editor, LAYOUT, Editor.at(layout, "otherwise", 1))).contains("Takes");
      Position address = Editor.at(layout, "address: ", 1);
      Position figure = new Position(address.getLine(), address.getCharacter() + 9);
      assertThat(hover(editor, LAYOUT, figure)).contains("packet").contains("Stop");
      Position kind = Editor.at(layout, "kind: home", 1);
      Position home = new Position(kind.getLine(), kind.getCharacter() + 6);
      assertThat(hover(editor, LAYOUT, home))
          .contains("home: ")
          .contains("form: two-head")
          .contains("searchlight, searchlight");
    }
  }

  private static String hover(Editor editor, String name, Position position) {
    Position inside = new Position(position.getLine(), position.getCharacter() + 1);
    return Editor.get(
            editor
                .server()
                .getTextDocumentService()
                .hover(new HoverParams(editor.id(name), inside)))
        .getContents()
        .getRight()
        .getValue();
  }

  @Test
  void an_outline_and_quick_fixes() throws Exception {
    try (Editor editor = new Editor(folder)) {
      String text = book.replace("show green", "show gren");
      editor.open(BOOK, text);
      editor.shown(BOOK, all -> !all.isEmpty());
      var service = editor.server().getTextDocumentService();
      assertThat(Editor.get(service.documentSymbol(new DocumentSymbolParams(editor.id(BOOK)))))
          .anyMatch(s -> s.getRight().getName().equals("Clear"));
      Position at = Editor.at(text, "gren\n", 1);
      var actions =
          Editor.get(
              service.codeAction(
                  new CodeActionParams(
                      editor.id(BOOK), new Range(at, at), new CodeActionContext(List.of()))));
      assertThat(actions).anyMatch(a -> a.getRight().getTitle().contains("green"));
      List<TextEdit> edits =
          actions.get(0).getRight().getEdit().getChanges().get(editor.id(BOOK).getUri());
      assertThat(applied(text, edits)).isEqualTo(book);
    }
  }

  private static String code(Diagnostic finding) {
    return finding.getCode().getLeft();
  }

  private static String message(Diagnostic finding) {
    return finding.getMessage().isLeft()
        ? finding.getMessage().getLeft()
        : finding.getMessage().getRight().getValue();
  }
}
