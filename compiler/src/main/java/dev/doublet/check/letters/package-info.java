/** Whether texts say what they seem to say. */
package dev.doublet.check.letters;
