package dev.doublet.source;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.Position.Counting;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.StringLength;
import org.junit.jupiter.api.Test;

/** Places counted in code points and in units of UTF-16. */
class PositionTest {
  private static final SourceFile FILE = new SourceFile("x", "a🚦b\r\n\uFEFFc🚦");

  @Test
  void aCharacterOutsideTheBasicPlaneIsTwoUnitsAndOneCodePoint() {
    int b = FILE.text().indexOf('b');
    assertThat(FILE.position(b)).isEqualTo(new Position(1, 3));
    assertThat(FILE.position(b, Counting.UTF_16)).isEqualTo(new Position(1, 4));
    assertThat(FILE.offset(new Position(1, 3), Counting.CODE_POINTS)).isEqualTo(b);
    assertThat(FILE.offset(new Position(1, 4), Counting.UTF_16)).isEqualTo(b);
  }

  @Test
  void aPlaceBetweenTwoHalvesIsTakenBeforeThem() {
    assertThat(FILE.offset(new Position(1, 3), Counting.UTF_16)).isEqualTo(1);
  }

  @Test
  void aByteOrderMarkWithinATextIsACharacterLikeAnyOther() {
    int c = FILE.text().indexOf('c');
    assertThat(FILE.position(c)).isEqualTo(new Position(2, 2));
    assertThat(FILE.position(c, Counting.UTF_16)).isEqualTo(new Position(2, 2));
  }

  @Test
  void placesBeyondTheTextAreItsLast() {
    for (Counting counting : Counting.values()) {
      assertThat(FILE.offset(new Position(1, 99), counting)).isEqualTo(4);
      assertThat(FILE.offset(new Position(9, 1), counting)).isEqualTo(FILE.text().length());
      assertThat(FILE.offset(new Position(0, 0), counting)).isZero();
    }
  }

  @Property(seed = "1957")
  void everyPlaceIsFoundAgain(@ForAll @StringLength(max = 30) String text) {
    SourceFile file = new SourceFile("x", text);
    for (int i = 0; i <= text.length(); i++) {
      boolean halved =
          i > 0
              && i < text.length()
              && Character.isSurrogatePair(text.charAt(i - 1), text.charAt(i));
      boolean inEnd = i > 0 && i < text.length() && text.startsWith("\r\n", i - 1);
      for (Counting counting : Counting.values()) {
        if (!halved && !inEnd) {
          assertThat(file.offset(file.position(i, counting), counting)).isEqualTo(i);
        }
      }
    }
  }
}
