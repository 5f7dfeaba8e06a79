package dev.doublet.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import dev.doublet.rulebook.RulebookResolver;
import java.io.IOException;
import java.util.stream.Stream;
import org.junit.jupiter.params.provider.MethodSource;

class RulebookFuzzTest {
  static Stream<byte[]> books() throws IOException {
    return Texts.seeds(".aspects");
  }

  @MethodSource("books")
  @FuzzTest
  void anyTextIsARulebookOrIsToldWhyNot(byte[] bytes) {
    long since = Texts.now();
    Texts.of(bytes)
        .map(t -> RulebookResolver.resolve("any.aspects", Texts.reader("any.aspects", t)))
        .ifPresent(o -> Texts.drawn(o.diagnostics(), since));
  }
}
