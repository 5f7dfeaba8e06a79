package dev.doublet.syntax;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.doublet.grammar.AspectsLexer;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** What editors colour, held against the grammar; {@code .ci/run} colours a text with it. */
class EditorFilesTest {
  private static final Path GRAMMAR =
      Path.of("../examples/editor/vscode/syntaxes/aspects.tmLanguage.json");

  @Test
  void everyWordThatIsNoNameHasAColourOfItsOwn() throws IOException {
    JsonNode grammar = new ObjectMapper().readTree(GRAMMAR.toFile());
    List<Pattern> words = new ArrayList<>();
    for (String sort : List.of("declaration", "fact", "joint", "constant")) {
      words.add(Pattern.compile(grammar.at("/repository/" + sort + "/match").textValue()));
    }
    int reserved = 0;
    for (int type = 1; type <= AspectsLexer.VOCABULARY.getMaxTokenType(); type++) {
      String literal = AspectsLexer.VOCABULARY.getLiteralName(type);
      String word = literal == null ? "" : literal.replace("'", "");
      boolean isWord = !word.isEmpty() && Character.isLetter(word.charAt(0));
      if (isWord && Lexemes.of(new SourceFile("name", "plate " + word)).isEmpty()) {
        reserved++;
        assertThat(words).as(word).anyMatch(pattern -> pattern.matcher(word).matches());
      }
    }
    assertThat(reserved).isGreaterThan(40);
  }

  @Test
  void namesAreNamesByTheGrammarToo() throws IOException {
    JsonNode grammar = new ObjectMapper().readTree(GRAMMAR.toFile());
    Pattern name = Pattern.compile(grammar.at("/repository/name/match").textValue());
    for (String word : List.of("a", "one-head", "7b", "_", "\u00fc\u00df", "404A", "\u4fe1-")) {
      assertThat(name.matcher(word).matches()).as(word).isTrue();
      assertThat(Lexemes.of(new SourceFile("name", "plate " + word))).as(word).isPresent();
    }
  }
}
