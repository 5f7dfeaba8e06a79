package dev.doublet.editor;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Label;
import dev.doublet.source.Mention;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The demo's files as they are while they are being written: every so many of their prefixes, and
 * they without every so many of their characters. The profile {@code edits} tries every one.
 */
@Tag("slow")
class EveryEditTest {
  private static final Path ROOT = Path.of("..");
  private static final int STEP = Integer.getInteger("edits.step", 97);
  private static final Map<String, SourceFile> READ = new ConcurrentHashMap<>();
  private static final SourceReader SAVED =
      path -> {
        if (!READ.containsKey(path)) {
          try {
            String text = Files.readString(ROOT.resolve(path));
            READ.put(path, new SourceFile(path, text).kept());
          } catch (IOException e) {
            throw new SourceReader.Unreadable("there is no such file");
          }
        }
        return READ.get(path);
      };

  @ParameterizedTest
  @ValueSource(
      strings = {
        "rulebooks/brackwater.aspects",
        "rulebooks/brackwater-heads.aspects",
        "examples/dead-led/layout.yaml",
        "examples/yard/layout.yaml"
      })
  void no_edit_makes_an_exception_or_leaves_a_stale_finding(String path) throws Exception {
    SourceFile file = SAVED.read(path);
    String root = path.contains("heads") ? "rulebooks/brackwater.aspects" : path;
    List<Diagnostic> before = Root.quick(root, SAVED).whole().findings();
    CarriedFindings carried = new CarriedFindings(before);
    for (int i = 0; i < file.text().length(); i += STEP) {
      String text = file.text();
      check(root, new SourceFile(path, text.substring(0, i)), before, carried, i);
      check(
          root,
          new SourceFile(path, text.substring(0, i) + text.substring(i + 1)),
          before,
          carried,
          i);
    }
  }

  private static void check(
      String path, SourceFile typed, List<Diagnostic> before, CarriedFindings carried, int cursor) {
    SourceFile edited = typed.kept();
    Texts texts = new Texts(Map.of(edited.name(), edited), SAVED);
    Root root = Root.quick(path, texts);
    List<Span> places = new ArrayList<>();
    root.findings().forEach(f -> places.addAll(places(f)));
    for (Diagnostic moved : carried.over(root.files())) {
      Diagnostic first = source(moved, before);
      for (int i = 0; i < places(moved).size(); i++) {
        assertThat(Wording.of(places(moved).get(i)).words())
            .as("what %s points at after an edit at %d", moved.message(), cursor)
            .isEqualTo(Wording.of(places(first).get(i)).words());
      }
      places.addAll(places(moved));
    }
    root.names().all().stream().map(Mention::span).forEach(places::add);
    for (Span place : places) {
      SourceFile now = root.files().get(place.file().name());
      // A file that cannot be read has findings at its beginning.
      assertThat(place.end()).isLessThanOrEqualTo(now == null ? 0 : now.text().length());
    }
    Completion.at(root, edited, cursor);
    Explanation.at(root, edited, cursor);
    Outline.of(edited);
    Renaming.places(List.of(root), edited, cursor);
  }

  private static Diagnostic source(Diagnostic carried, List<Diagnostic> before) {
    return before.stream()
        .filter(d -> d.name().equals(carried.name()) && d.message().equals(carried.message()))
        .findFirst()
        .orElseThrow();
  }

  private static List<Span> places(Diagnostic finding) {
    List<Span> places = new ArrayList<>(List.of(finding.primary().span()));
    finding.related().stream().map(Label::span).forEach(places::add);
    return places;
  }
}
