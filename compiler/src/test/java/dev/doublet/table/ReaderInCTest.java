package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.Packet;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Layout;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.table.Samples.Arrangement;
import java.io.DataInputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

@Tag("slow")
class ReaderInCTest {
  /** Hears every request of these tests with the answer to it. */
  interface Listener {
    void heard(String host, byte[] request, byte[] answer) throws IOException;
  }

  private static Listener listener = (host, request, answer) -> {};

  @TempDir private static Path folder;
  private static Compilation compilation;
  private static Process checked;
  private static Process quick;
  private static Process fading;

  @BeforeAll
  static void startTheHostPrograms() throws IOException, InterruptedException {
    Compilation.assumeCompiler("gcc");
    compilation = new Compilation(folder);
    checked = compilation.checkedHost();
    quick = compilation.quickHost();
    fading = compilation.fadingHost();
  }

  @AfterAll
  static void endTheHostPrograms() throws IOException, InterruptedException {
    for (Process host : new Process[] {checked, quick, fading}) {
      if (host != null) {
        host.getOutputStream().close();
        assertThat(host.waitFor()).as(compilation.errors()).isZero();
      }
    }
  }

  @Test
  void checksumsAreThoseOfThePublishedVectors() throws IOException {
    Dialogue dialogue = new Dialogue(new byte[0]);
    dialogue.sum("123456789".getBytes(StandardCharsets.US_ASCII), 0xE3069283);
    dialogue.sum(new byte[32], 0x8A9136AA);
    agree(dialogue, checked);
  }

  @Test
  void everyUnitAndCommandGivesTheSameBytesAsTheDecoderInJava() throws IOException {
    Random random = new Random(2);
    for (Arrangement arrangement : Arrangement.values()) {
      converse(Samples.fleet(40, arrangement), random, checked);
    }
    converse(Samples.everyMode(), random, checked);
    converse(Samples.everyLight(), random, checked);
    for (int i = 0; i < 1000; i++) {
      converse(RandomController.of(random), random, i % 10 == 0 ? checked : quick);
    }
  }

  @Test
  void theDemosTablesGiveTheSameBytesAndAreRefusedWithAnySingleBitFlipped() throws Exception {
    Layout demo =
        LayoutResolver.resolve("examples/brackwater/layout.yaml", ReaderInCTest::fromProject)
            .value()
            .orElseThrow();
    for (Controller controller : demo.controllers()) {
      byte[] table = TableWriter.write(Lowering.lower(demo.rulebook(), controller));
      converse(controller, table, new Random(5), checked);
      for (int bit = 0; bit < 8 * table.length; bit++) {
        byte[] flipped = table.clone();
        flipped[bit / 8] ^= (byte) (1 << bit % 8);
        refuse(flipped);
      }
    }
  }

  /** Holds every talk of these tests with the reader as it is, while somebody listens. */
  static void holdEveryTalk(Path place, Listener hearing) throws Exception {
    folder = place;
    listener = hearing;
    startTheHostPrograms();
    ReaderInCTest test = new ReaderInCTest();
    test.checksumsAreThoseOfThePublishedVectors();
    test.everyUnitAndCommandGivesTheSameBytesAsTheDecoderInJava();
    test.theDemosTablesGiveTheSameBytesAndAreRefusedWithAnySingleBitFlipped();
    test.lampsThatFadeAndVanesThatSwingGiveTheSameBytesAsTheDecoderInJava();
    test.filamentsFlashTheSameInAnyRhythmThatASoundTableCanHold(1, 65535);
    test.bytesThatAreNoTableAreRefusedForTheSameReason();
    test.placesThatDoNotMakeUpTheUnitsOrNameNoKindAreRefused();
    test.damageUnderARightChecksumIsSafeAndMeansTheSameWhereverItIsSound();
    endTheHostPrograms();
    listener = (host, request, answer) -> {};
  }

  private static SourceFile fromProject(String path) throws SourceReader.Unreadable {
    try {
      return new SourceFile(path, Files.readString(Path.of("..").resolve(path)));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }

  @Test
  void lampsThatFadeAndVanesThatSwingGiveTheSameBytesAsTheDecoderInJava() throws IOException {
    Random random = new Random(6);
    converse(Samples.everyMode(), random, fading);
    converse(Samples.everyLight(), random, fading);
    converse(Samples.everyGlow(), random, fading);
    List<Glow> unshown = List.of(new Glow(true, "blue"), new Glow(false, "blue"));
    converse(Samples.glowing(unshown, 50, Samples.FOUR_CHANNEL, Samples.PIXEL), random, fading);
    for (int i = 0; i < 300; i++) {
      converse(RandomController.of(random), random, fading);
    }
    for (int i = 0; i < 500; i++) {
      byte[] table = Samples.write(RandomController.of(random));
      table[8 + random.nextInt(table.length - 12)] = (byte) random.nextInt(256);
      Samples.seal(table);
      Dialogue dialogue = new Dialogue(table, true);
      if (dialogue.isOpen()) {
        sweep(dialogue, random);
        agree(dialogue, fading);
      } else {
        Dialogue other = new Dialogue(Samples.write(Samples.everyLight()), true);
        sweep(other, random);
        ask(other.request(table), fading);
      }
    }
  }

  /** No writer makes a rhythm that is never half way through; a damaged table may have one. */
  @ParameterizedTest
  @CsvSource({"200, 300", "300, 300", "1, 65535", "65535, 65535", "40000, 65000", "300, 299"})
  void filamentsFlashTheSameInAnyRhythmThatASoundTableCanHold(int period, int first)
      throws IOException {
    for (int light : List.of(3, 4)) {
      byte[] table = HandMadeTableTest.LATER.clone();
      ByteBuffer.wrap(table)
          .order(ByteOrder.LITTLE_ENDIAN)
          .putShort(81, (short) period)
          .putShort(83, (short) first)
          .put(183, (byte) light);
      Samples.seal(table);
      Dialogue dialogue = new Dialogue(table, true);
      assertThat(dialogue.isOpen()).isTrue();
      for (int millis : List.of(0, 1, 150, 199, 200, 299, 300, 301, 700, 39_999, 65_535, 99_999)) {
        dialogue.leds(0, millis);
      }
      agree(dialogue, fading);
    }
  }

  @Test
  void bytesThatAreNoTableAreRefusedForTheSameReason() throws IOException {
    byte[] table = Samples.write(RandomController.of(new Random(3)));
    for (int length = 0; length < table.length; length++) {
      refuse(Arrays.copyOf(table, length));
    }
    refuse(Arrays.copyOf(table, table.length + 1));
    for (int bit = 0; bit < 8 * table.length; bit++) {
      byte[] flipped = table.clone();
      flipped[bit / 8] ^= (byte) (1 << bit % 8);
      refuse(flipped);
    }
    Random random = new Random(4);
    for (int i = 0; i < 1000; i++) {
      byte[] bytes = new byte[random.nextInt(200)];
      random.nextBytes(bytes);
      refuse(bytes);
      System.arraycopy(table, 0, bytes, 0, Math.min(6, bytes.length));
      refuse(bytes);
    }
  }

  @Test
  void placesThatDoNotMakeUpTheUnitsOrNameNoKindAreRefused() throws IOException {
    int units = 10;
    int kind = 79;
    for (int[] change : new int[][] {{units, 3}, {units, 1}, {kind, 1}, {kind, 128}}) {
      byte[] table = HandMadeTableTest.TABLE.clone();
      table[change[0]] = (byte) change[1];
      Samples.seal(table);
      refuse(table);
    }
  }

  @Test
  void damageUnderARightChecksumIsSafeAndMeansTheSameWhereverItIsSound() throws IOException {
    Random random = new Random(5);
    Dialogue other = new Dialogue(Samples.write(RandomController.of(random)));
    sweep(other, random);
    int sound = 0;
    for (int i = 0; i < 3000; i++) {
      byte[] table = Samples.write(RandomController.of(random));
      for (int damage = 1 + random.nextInt(3); damage > 0; damage--) {
        table[8 + random.nextInt(table.length - 12)] = (byte) random.nextInt(256);
      }
      Samples.seal(table);
      Dialogue dialogue = new Dialogue(table);
      if (dialogue.isOpen()) {
        sound++;
        sweep(dialogue, random);
        agree(dialogue, checked);
      } else {
        ask(other.request(table), checked);
      }
    }
    assertThat(sound).isBetween(300, 2700);
  }

  private static void refuse(byte[] bytes) throws IOException {
    Dialogue dialogue = new Dialogue(bytes);
    assertThat(dialogue.isOpen()).isFalse();
    agree(dialogue, checked);
  }

  private static void agree(Dialogue dialogue, Process host) throws IOException {
    byte[] found = ask(dialogue.request(), host);
    int at = Arrays.mismatch(dialogue.answer(), found);
    assertThat(at).as("first byte of the answer that differs").isEqualTo(-1);
  }

  private static byte[] ask(byte[] request, Process host) throws IOException {
    host.getOutputStream().write(request);
    host.getOutputStream().flush();
    DataInputStream in = new DataInputStream(host.getInputStream());
    byte[] length = in.readNBytes(4);
    assertThat(length.length).as("the host program ended: " + compilation.errors()).isEqualTo(4);
    byte[] answer = in.readNBytes(ByteBuffer.wrap(length).order(ByteOrder.LITTLE_ENDIAN).getInt());
    listener.heard(
        host == quick ? "quick" : host == fading ? "fading" : "checked", request, answer);
    return answer;
  }

  /** Commands of every sort on every bus, whatever listens there. */
  private static void sweep(Dialogue dialogue, Random random) {
    TableModel model = dialogue.reader().model();
    for (int bus = 0; bus < model.buses().size(); bus++) {
      for (TableModel.Unit unit : model.units()) {
        for (int i = 0; i < 6; i++) {
          int key = (int) (unit.key().get(0) & 2047);
          dialogue.accessory(bus, (key + random.nextInt(3)) % 2048, random.nextInt(2));
          dialogue.extended(bus, key, random.nextInt(256));
          dialogue.event(bus, unit.key().get(0) + random.nextInt(300));
        }
      }
      dialogue.topic(bus, new byte[0], new byte[] {'7'});
    }
    dialogue.aspects();
    dialogue.night(random.nextBoolean());
    for (int unit = 0; unit < model.units().size(); unit++) {
      dialogue.approach(unit, random.nextBoolean());
    }
    for (int chain = 0; chain < model.chains().size(); chain++) {
      for (int i = 0; i < 4; i++) {
        dialogue.leds(chain, random.nextInt(100_000));
      }
    }
  }

  /** Every command of every unit; whatever is shown for the first time, at 64 instants. */
  private static void converse(Controller controller, Random random, Process host)
      throws IOException {
    converse(controller, Samples.write(controller), random, host);
  }

  private static void converse(Controller controller, byte[] table, Random random, Process host)
      throws IOException {
    Dialogue dialogue = new Dialogue(table, host == fading);
    List<Unit> units = Lowering.order(controller);
    dialogue.aspects();
    for (int chain = 0; chain < controller.chains().size(); chain++) {
      frames(dialogue, chain, random);
      if (dialogue.reader().leds(chain, 0).length > 0) {
        dialogue.tooFewBytes(chain);
      }
    }
    for (int place = 0; place < units.size(); place++) {
      Unit unit = units.get(place);
      int bus = Lowering.buses(controller).indexOf(unit.command().bus());
      BitSet seen = new BitSet();
      dialogue.night(random.nextBoolean());
      dialogue.approach(random.nextInt(units.size()), random.nextInt(4) == 0);
      for (Runnable command : commands(dialogue, unit, bus, random)) {
        command.run();
        int state = dialogue.reader().state(place);
        if (!seen.get(state)) {
          seen.set(state);
          frames(dialogue, unit.chain().index(), random);
        }
      }
    }
    dialogue.aspects();
    rareCalls(dialogue, controller, random);
    agree(dialogue, host);
  }

  /** Push-buttons, lamp tests, the range of addresses, and states saved and brought back. */
  private static void rareCalls(Dialogue dialogue, Controller controller, Random random) {
    TableModel model = dialogue.reader().model();
    byte[] saved = dialogue.save();
    dialogue.restore(saved, saved.length > 0);
    dialogue.aspects();
    if (saved.length > 0) {
      saved[random.nextInt(saved.length)] ^= (byte) (1 << random.nextInt(8));
      dialogue.restore(saved, false);
      dialogue.restore(Arrays.copyOf(saved, saved.length - 1), false);
    }
    for (int unit = 0; unit < model.units().size(); unit++) {
      dialogue.set(unit, random.nextInt(20));
      dialogue.set(
          unit, model.kinds().get(model.units().get(unit).kind()).look().states().get(0).number());
    }
    dialogue.aspects();
    dialogue.test(random.nextInt(model.colours() + 1));
    for (int chain = 0; chain < controller.chains().size(); chain++) {
      dialogue.leds(chain, random.nextInt(1 << 24));
    }
    dialogue.test(0);
    for (int bus = 0; bus < model.buses().size(); bus++) {
      if (model.buses().get(bus).speaks() == Bus.Speaks.DCC) {
        int here = bus;
        List<Long> addresses =
            model.units().stream()
                .filter(u -> model.kinds().get(u.kind()).bus() == here)
                .flatMap(u -> u.key().stream())
                .sorted()
                .toList();
        boolean none = addresses.isEmpty();
        dialogue.range(
            bus,
            none ? 1 : addresses.get(0).intValue(),
            none ? 0 : addresses.get(addresses.size() - 1).intValue());
      }
    }
  }

  private static List<Runnable> commands(Dialogue d, Unit unit, int bus, Random random) {
    List<Runnable> commands = new ArrayList<>();
    List<Integer> addresses =
        unit.command().addresses().stream()
            .map(a -> Accessory.binary(a, unit.command().bus().firstDecoder()))
            .toList();
    switch (TableModel.Mode.of(unit.kind().way())) {
      case ASPECT_NUMBER -> {
        for (int value = 0; value < 256; value += value < 32 ? 1 : 1 + random.nextInt(60)) {
          Packet packet = new Packet.ExtendedAccessory(addresses.get(0), value);
          commands.add(() -> d.packet(bus, packet.bytes()));
        }
        for (Answer answer : unit.kind().answers()) {
          commands.add(() -> d.extended(bus, addresses.get(0), answer.value()));
        }
        // To the last 11-bit address, which is the broadcast too (NMRA S-9.2.1).
        Packet all = new Packet.ExtendedAccessory(2047, random.nextInt(32));
        commands.add(() -> d.packet(bus, all.bytes()));
        commands.add(() -> d.packet(bus, damaged(all, random)));
        for (int first = 0; first < 256; first += 64) {
          byte[] other = new Packet.ExtendedAccessory(addresses.get(0), 0).bytes();
          int change = (other[0] ^ first) & 0xC0;
          other[0] ^= (byte) change;
          other[3] ^= (byte) change;
          commands.add(() -> d.packet(bus, other));
        }
        commands.add(() -> d.packet(bus, new byte[] {(byte) 0x81, 0x79, 0, (byte) 0xF8}));
      }
      case BINARY_CODED, ONE_PER_OUTPUT -> {
        for (int i = 0; i < 4 << addresses.size(); i++) {
          int address = addresses.get(i % addresses.size());
          int output = i / addresses.size() >> i % addresses.size() & 1;
          boolean on = random.nextInt(8) > 0;
          Packet packet = new Packet.BasicAccessory(address, output, on);
          commands.add(() -> d.packet(bus, packet.bytes()));
          commands.add(() -> d.packet(bus, damaged(packet, random)));
          commands.add(() -> d.accessory(bus, address, 1 - output));
        }
        int behind = addresses.get(addresses.size() - 1) + 1 & 2047;
        commands.add(() -> d.accessory(bus, behind, 0));
        commands.add(() -> d.accessory(bus, behind, 1));
      }
      case TOPIC -> {
        byte[] topic = unit.command().topic().getBytes(StandardCharsets.UTF_8);
        for (State state : unit.kind().states()) {
          commands.add(() -> d.topic(bus, topic, utf8(state.name())));
          commands.add(() -> d.topic(bus, topic, utf8(state.name() + " ")));
          commands.add(() -> d.topic(bus, topic, utf8("" + state.number())));
        }
        for (String payload :
            List.of("", "0", "007", "256", "65536", "4294967296", "-1", "1x", "/", ":")) {
          commands.add(() -> d.topic(bus, topic, utf8(payload)));
        }
        commands.add(() -> d.topic(bus, utf8(unit.command().topic() + "/"), utf8("0")));
      }
      case EVENT -> {
        for (long event : unit.command().events()) {
          for (long near : List.of(event, event + 1, event - 1, event ^ 1L << 40)) {
            commands.add(() -> d.event(bus, near));
          }
        }
      }
    }
    commands.add(() -> d.accessory(bus, random.nextInt(2048), random.nextInt(2)));
    commands.add(() -> d.extended(bus, random.nextInt(2048), random.nextInt(256)));
    return commands;
  }

  private static byte[] utf8(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }

  private static byte[] damaged(Packet packet, Random random) {
    byte[] bytes = packet.bytes();
    bytes[random.nextInt(bytes.length)] ^= (byte) (1 << random.nextInt(8));
    return bytes;
  }

  private static void frames(Dialogue dialogue, int chain, Random random) {
    int instants = 64;
    int turn = random.nextInt(1 << 24);
    for (; instants > 24; instants--) {
      dialogue.leds(chain, turn);
      turn += random.nextInt(40);
    }
    for (TableModel.Rhythm rhythm : dialogue.reader().model().rhythms()) {
      int start = rhythm.period() * random.nextInt(1000);
      for (int edge : List.of(0, rhythm.first() - 1, rhythm.first(), rhythm.period() - 1)) {
        dialogue.leds(chain, start + edge);
        instants--;
      }
    }
    for (; instants > 0; instants--) {
      dialogue.leds(chain, random.nextInt(1 << 24));
    }
  }
}
