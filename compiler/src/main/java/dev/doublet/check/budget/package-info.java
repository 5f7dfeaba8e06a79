/** Whether it all fits: addresses, values, memory, current and time. */
package dev.doublet.check.budget;
