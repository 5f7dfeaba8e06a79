/*
 * An ATmega328P with a crystal of 16 MHz and 5 V: names of registers are those of its data sheet.
 *
 *   pin 14  PB0  ICP1   DCC, from the opto-coupler
 *   pins 23 to 28, PC0 to PC5   LEDs of chains 0 to 5
 *   pin 4   PD2         a button to ground, for the lamp test
 *   pins 5, 6, 11 to 13, PD3 to PD7   servos of channels 0 to 4
 *   pin 2   PD0  RXD    serial line, 4800 bit/s, 8 bits, no parity
 *   pin 3   PD1  TXD
 *
 * The timer notes when edges of DCC come, to half a microsecond, also while interrupts wait. The interrupt only puts
 * the time between two edges in a queue: it is the one interrupt there is, so it alone can part two bytes of LEDs, and
 * it is written in assembler to part them by 5 us at most.
 */
#include <avr/interrupt.h>
#include <avr/io.h>

#include "board.h"
#include "dcc.h"

#define EDGES 128 /* in the queue: all that come while the longest pair of chains is sent, 5 ms and more */
#define REST_TICKS 6u /* of 64 us: at least 320 us of rest, as 300 do for all LEDs whose sheets we have */
#define LED_PINS 0x3Fu
#define FIRST_SERVO (1 << PORTD3)
#define EDGE_TICKS 16u /* of half a microsecond */
#define TOGETHER_TICKS 8u

/* Half microseconds between edges; 255 for more, and 0 for 10.1 ms and more, which is no half of a bit. */
uint8_t board_edges[EDGES] __attribute__((used));

/* GPIOR0 is the place of the next one, GPIOR2 and GPIOR1 are the time of the last edge: of registers that the chip
 * leaves free, these are reached fastest. */
ISR(TIMER1_CAPT_vect, ISR_NAKED) {
  __asm__ volatile(
      "push r24\n\t"
      "in r24, %[sreg]\n\t"
      "push r24\n\t"
      "push r25\n\t"
      "push r30\n\t"
      "push r31\n\t"
      "lds r24, %[low]\n\t"
      "lds r25, %[high]\n\t"
      "lds r30, %[control]\n\t"
      "ldi r31, %[edge]\n\t"
      "eor r30, r31\n\t" /* the next edge is of the other sort */
      "sts %[control], r30\n\t"
      "sbi %[flags], %[flag]\n\t" /* which may have set the flag */
      "in r30, %[was_low]\n\t"
      "in r31, %[was_high]\n\t"
      "out %[was_low], r24\n\t"
      "out %[was_high], r25\n\t"
      "sub r24, r30\n\t"
      "sbc r25, r31\n\t"
      "breq 1f\n\t"
      "cpi r25, 1\n\t"
      "brlo 2f\n\t"
      "ldi r24, 255\n\t"
      "cpi r25, 0x4F\n\t"
      "brlo 2f\n\t"
      "1: ldi r24, 0\n\t"
      "2: in r30, %[place]\n\t"
      "ldi r31, 0\n\t"
      "subi r30, lo8(-(board_edges))\n\t"
      "sbci r31, hi8(-(board_edges))\n\t"
      "st Z, r24\n\t"
      "in r30, %[place]\n\t"
      "inc r30\n\t"
      "andi r30, %[last]\n\t"
      "out %[place], r30\n\t"
      "pop r31\n\t"
      "pop r30\n\t"
      "pop r25\n\t"
      "pop r24\n\t"
      "out %[sreg], r24\n\t"
      "pop r24\n\t"
      "reti\n\t"
      :
      : [sreg] "I"(_SFR_IO_ADDR(SREG)), [low] "n"(_SFR_MEM_ADDR(ICR1L)), [high] "n"(_SFR_MEM_ADDR(ICR1H)),
        [control] "n"(_SFR_MEM_ADDR(TCCR1B)), [edge] "M"(1 << ICES1), [flags] "I"(_SFR_IO_ADDR(TIFR1)),
        [flag] "I"(ICF1), [place] "I"(_SFR_IO_ADDR(GPIOR0)), [was_low] "I"(_SFR_IO_ADDR(GPIOR1)),
        [was_high] "I"(_SFR_IO_ADDR(GPIOR2)), [last] "M"(EDGES - 1));
}

void board_begin(void) {
  DDRC = LED_PINS;
  PORTD = 1 << PORTD2;                          /* held high unless the button is pressed */
  TCCR0B = 1 << CS02 | 1 << CS00;               /* 64 us a tick */
  TCCR1B = 1 << ICNC1 | 1 << ICES1 | 1 << CS11; /* half a microsecond a tick; four samples make an edge */
  TIFR1 = 1 << ICF1;
  TIMSK1 = 1 << ICIE1;
  UBRR0 = 207;
  UCSR0B = 1 << RXEN0 | 1 << TXEN0;
  sei();
}

/* Ticks are counted on from what the timer says; they wrap after 16 ms, and are asked for more often. */
uint32_t board_millis(void) {
  static uint32_t millis;
  static uint16_t micros;
  static uint8_t before;
  const uint8_t gone = (uint8_t)(TCNT0 - before);
  before = (uint8_t)(before + gone);
  for (micros = (uint16_t)(micros + 64u * gone); micros >= 1000; micros = (uint16_t)(micros - 1000)) millis++;
  return millis;
}

uint8_t board_packet(uint8_t packet[6]) {
  static struct dcc track;
  static uint8_t place;
  while (place != GPIOR0) {
    const uint8_t edge = *(volatile uint8_t *)&board_edges[place];
    uint8_t length, i;
    place = (uint8_t)(place + 1) % EDGES;
    length = dcc_half(&track, edge >> 1);
    if (length > 0) {
      for (i = 0; i < length; i++) packet[i] = track.packet[i];
      return length;
    }
  }
  return 0;
}

/*
 * Sends bytes down the lines of two pins at once, most significant bit first. A bit takes 22 cycles of 62.5 ns: high
 * for 6 (a zero) or 12 (a one), low for 16 or 10. Interrupts are let in within the low of a byte's last bit, which
 * takes no cycle of its own.
 */
static void send(const uint8_t *bytes, uint8_t pin, const uint8_t *beside, uint8_t pin_beside, uint16_t count) {
  uint8_t byte, other, bits, low, high, both;
  low = (uint8_t)(PORTC & ~LED_PINS);
  high = (uint8_t)(low | pin | pin_beside);
  __asm__ volatile(
      "cli\n\t"
      "ld %[byte], %a[bytes]+\n\t"
      "ld %[other], %a[beside]+\n\t"
      "ldi %[bits], 7\n\t"
      "1: out %[port], %[high]\n\t"
      "mov %[both], %[low]\n\t"
      "sbrc %[byte], 7\n\t"
      "or %[both], %[pin]\n\t"
      "sbrc %[other], 7\n\t"
      "or %[both], %[pin_beside]\n\t"
      "out %[port], %[both]\n\t"
      "lsl %[byte]\n\t"
      "lsl %[other]\n\t"
      "rjmp .+0\n\t"
      "nop\n\t"
      "out %[port], %[low]\n\t"
      "rjmp .+0\n\t"
      "rjmp .+0\n\t"
      "rjmp .+0\n\t"
      "dec %[bits]\n\t"
      "brne 1b\n\t"
      "nop\n\t"
      "out %[port], %[high]\n\t" /* the last bit, and meanwhile the next byte */
      "mov %[both], %[low]\n\t"
      "sbrc %[byte], 7\n\t"
      "or %[both], %[pin]\n\t"
      "sbrc %[other], 7\n\t"
      "or %[both], %[pin_beside]\n\t"
      "out %[port], %[both]\n\t"
      "ld %[byte], %a[bytes]+\n\t"
      "ld %[other], %a[beside]+\n\t"
      "nop\n\t"
      "out %[port], %[low]\n\t"
      "sei\n\t"
      "ldi %[bits], 7\n\t" /* an interrupt comes after this, */
      "nop\n\t"            /* or in simulators after this */
      "cli\n\t"
      "nop\n\t"
      "sbiw %[count], 1\n\t"
      "brne 1b\n\t"
      "sei\n\t"
      : [bytes] "+x"(bytes), [beside] "+z"(beside), [count] "+w"(count), [byte] "=&r"(byte), [other] "=&r"(other),
        [bits] "=&d"(bits), [both] "=&r"(both)
      : [port] "I"(_SFR_IO_ADDR(PORTC)), [low] "r"(low), [high] "r"(high), [pin] "r"(pin),
        [pin_beside] "r"(pin_beside)
      : "memory");
}

/* Sends when the lines have rested. */
static void send_rested(const uint8_t *bytes, uint8_t pin, const uint8_t *beside, uint8_t pin_beside, uint16_t count) {
  static uint8_t ended;
  if (count == 0) return;
  while ((uint8_t)(TCNT0 - ended) < REST_TICKS) continue;
  send(bytes, pin & LED_PINS, beside, pin_beside & LED_PINS, count);
  ended = TCNT0;
}

void board_send(uint8_t chain, const uint8_t *bytes, uint16_t count) {
  send_rested(bytes, (uint8_t)(1 << chain), bytes, 0, count);
}

void board_send_two(uint8_t chain, const uint8_t *bytes, const uint8_t *beside, uint16_t count) {
  send_rested(bytes, (uint8_t)(1 << chain), beside, (uint8_t)(2 << chain), count);
}

/* The timer, which takes two reads that no interrupt may part. */
static uint16_t ticks(void) {
  uint16_t now;
  cli();
  now = TCNT1;
  sei();
  return now;
}

/*
 * Pulses that end within four microseconds end together, with the first, as one after the other would take longer. No
 * interrupt comes in the last eight microseconds of a pulse, as the interrupt that there is takes five; nor between pulses
 * that end as close together. So an edge of DCC waits for 40 microseconds at most, which does no harm: the next comes after
 * 52 at least (NMRA S-9.1).
 */
void board_pulses(const uint16_t micros[BOARD_SERVOS]) {
  uint16_t ends[BOARD_SERVOS], began;
  uint8_t pins[BOARD_SERVOS], count = 0, all = 0, last, i;
  for (i = 0; i < BOARD_SERVOS; i++) {
    const uint8_t pin = (uint8_t)(FIRST_SERVO << i);
    const uint16_t end = 2 * micros[i];
    uint8_t place = count;
    if (end == 0) continue;
    for (; place > 0 && ends[place - 1] > end; place--) {
      ends[place] = ends[place - 1];
      pins[place] = pins[place - 1];
    }
    ends[place] = end;
    pins[place] = pin;
    all |= pin;
    count++;
  }
  for (i = last = 0; i < count; i++) {
    if (i > 0 && ends[i] - ends[last] < TOGETHER_TICKS) {
      pins[last] |= pins[i];
    } else {
      if (i > 0) last++;
      ends[last] = ends[i];
      pins[last] = pins[i];
    }
  }
  DDRD |= all;
  cli();
  PORTD |= all;
  began = TCNT1;
  sei();
  for (i = 0; all > 0;) {
    while ((uint16_t)(ticks() - began) + EDGE_TICKS < ends[i]) continue;
    cli();
    do {
      const uint8_t pin = pins[i];
      while ((uint16_t)(TCNT1 - began) < ends[i]) continue;
      PORTD &= (uint8_t)~pin;
      all &= (uint8_t)~pin;
      i++;
    } while (all > 0 && ends[i] - ends[i - 1] < EDGE_TICKS);
    sei();
  }
}

uint8_t board_pressed(void) { return !(PIND & 1 << PIND2); }

char board_typed(void) { return UCSR0A & 1 << RXC0 ? (char)UDR0 : 0; }

uint8_t board_print(char c) {
  if (!(UCSR0A & 1 << UDRE0)) return 0;
  UDR0 = (uint8_t)c;
  return 1;
}

uint16_t board_room(void) { return E2END + 1; }

uint8_t board_kept(uint16_t at) {
  while (EECR & 1 << EEPE) continue;
  EEAR = at;
  EECR |= 1 << EERE;
  return EEDR;
}

/* The two steps must follow within four cycles, so no interrupt comes between. A byte that is there already is not
 * written, which spares it. */
uint8_t board_keep(uint16_t at, uint8_t byte) {
  if (EECR & 1 << EEPE) return 0;
  if (board_kept(at) == byte) return 1;
  EEDR = byte;
  cli();
  EECR = 1 << EEMPE;
  EECR |= 1 << EEPE;
  sei();
  return 1;
}
