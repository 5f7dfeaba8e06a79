package dev.doublet.fuzz;

import com.code_intelligence.jazzer.junit.FuzzTest;
import dev.doublet.layout.read.LayoutResolver;
import java.io.IOException;
import java.util.stream.Stream;
import org.junit.jupiter.params.provider.MethodSource;

class LayoutFuzzTest {
  static Stream<byte[]> layouts() throws IOException {
    return Texts.layouts();
  }

  @MethodSource("layouts")
  @FuzzTest
  void anyTextIsALayoutOrIsToldWhyNot(byte[] bytes) {
    long since = Texts.now();
    Texts.of(bytes)
        .map(t -> LayoutResolver.resolve("layout.yaml", Texts.reader("layout.yaml", t)))
        .ifPresent(o -> Texts.drawn(o.diagnostics(), since));
  }
}
