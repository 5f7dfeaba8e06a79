/*
 * LEDs of 800 kbit/s by the serial interface (SPI) that most chips have: at 12 Mbit/s, sixteen of its bits, the highest
 * first, are one bit of a LED. It is high for 4 or 9 and low for 12 or 7 of them, 0.333 and 1.0 us or 0.75 and 0.583:
 * each lies within the sheets of WS2812B, its V5, SK6812RGBW and WS2813. All sixteen end low, so whatever comes late
 * makes a low longer, and no high. The line must stay low between (most chips hold the last bit: practice).
 */
#ifndef LED_BITS_H
#define LED_BITS_H

#include <stdint.h>

#define LED_BITS_HZ 12000000u
#define LED_ZERO 0xF000u
#define LED_ONE 0xFF80u
#define LED_REST 0u
#define LED_RESTS 240u /* 320 us: 300 do for all LEDs whose sheets we have */

/* Rests, and sends bytes down a chain. What is called for each sixteen waits until there is room for them. */
static inline void led_send(void (*put)(uint8_t chain, uint16_t sixteen), uint8_t chain, const uint8_t *bytes,
                            uint16_t count) {
  uint16_t rests;
  uint8_t bit;
  for (rests = 0; rests < LED_RESTS; rests++) put(chain, LED_REST);
  for (; count > 0; count--, bytes++)
    for (bit = 0x80; bit > 0; bit >>= 1) put(chain, *bytes & bit ? LED_ONE : LED_ZERO);
}

#endif
