package dev.doublet.check.letters;

import static org.assertj.core.api.Assertions.assertThat;

import com.ibm.icu.lang.UCharacter;
import com.ibm.icu.lang.UScript;
import com.ibm.icu.text.Normalizer2;
import com.ibm.icu.text.SpoofChecker;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;

/**
 * The table of look-alikes is what ICU's SpoofChecker says (Unicode Technical Standard 39) of all
 * letters and digits that look like those of ASCII. {@code -Ddoublet.update=true} writes it anew.
 */
class LookalikesTest {
  private static final Path TABLE =
      Path.of("src/main/resources/dev/doublet/check/letters/look-alikes.txt");
  private static final List<String> HEAD =
      List.of(
          "# Letters and digits, by number, that look like what stands before them: the prototypes of",
          "# Unicode Technical Standard 39 (confusables.txt, Unicode 16) that are letters and digits of",
          "# ASCII. Latin letters with a look of their own, such as the dotless i, are left out.",
          "# Data of Unicode, Inc., under the Unicode License v3.");

  @Test
  void the_table_is_what_the_library_says() throws IOException {
    SpoofChecker library = new SpoofChecker.Builder().build();
    Map<String, List<String>> shapes = new TreeMap<>();
    for (int c = '!'; c <= Character.MAX_CODE_POINT; c++) {
      String letter = Character.toString(c);
      String shape = library.getSkeleton(letter);
      if (UCharacter.isLetterOrDigit(c)
          && !shape.equals(letter)
          && !shape.isEmpty()
          && shape.chars().allMatch(s -> s < 0x80 && Character.isLetterOrDigit(s))
          && !hasALookOfItsOwn(c)) {
        shapes.computeIfAbsent(shape, s -> new ArrayList<>()).add("%04X".formatted(c));
      }
    }
    List<String> expected = new ArrayList<>(HEAD);
    shapes.forEach((shape, letters) -> expected.add(shape + " " + String.join(" ", letters)));
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.write(TABLE, expected);
    }
    assertThat(Files.readAllLines(TABLE)).isEqualTo(expected);
  }

  @Test
  void words_that_look_the_same_have_one_shape() {
    assertThat(Lookalikes.shape("Ѕtор")).isEqualTo(Lookalikes.shape("Stop"));
    assertThat(Lookalikes.shape("СТОР")).isEqualTo(Lookalikes.shape("CTOP"));
    assertThat(Lookalikes.shape("Стоп")).isNotEqualTo(Lookalikes.shape("Stop"));
    assertThat(Lookalikes.isOne('é')).isFalse();
    assertThat(Lookalikes.isOne('ı')).isFalse();
    assertThat(Lookalikes.isOne('Ω')).isFalse();
    assertThat(Lookalikes.isOne('o')).isFalse();
  }

  @Test
  void blanks_are_those_of_unicode_and_the_empty_braille_pattern() {
    for (int c = 0x80; c <= Character.MAX_CODE_POINT; c++) {
      boolean blank = UCharacter.getType(c) == UCharacter.SPACE_SEPARATOR || c == 0x2800;
      assertThat(Lookalikes.isBlank(c)).as("%04X", c).isEqualTo(blank);
    }
  }

  private static boolean hasALookOfItsOwn(int character) {
    return character > Lookalikes.LATIN
        && UScript.getScript(character) == UScript.LATIN
        && !Normalizer2.getNFKCInstance()
            .normalize(Character.toString(character))
            .chars()
            .allMatch(c -> c <= Lookalikes.LATIN);
  }
}
