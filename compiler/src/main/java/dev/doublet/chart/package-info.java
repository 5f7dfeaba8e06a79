/**
 * What people take to the layout on paper: what hangs where, and which command calls up what. Each
 * verb has records of what it reports, made of a resolved layout, and renderings of them; nothing
 * here decides anything that a check or a table would not. Depends on {@code layout}, {@code power}
 * and {@code facts}, and on no check; the command line uses it.
 */
package dev.doublet.chart;
