// Package inspect looks at finished sheets as one does who sends drawings back:
// for writing that lies over other writing, on lines, on marks or on pictures,
// that leaves the frame, that is too small to be read or lacks letters; for lines
// and pictures outside the frame; for leaders that cross.
//
// It looks at a sheet twice: at the drawing model, where the size of a text is
// what the layout took it for, and at the SVG as written, read without the model,
// where it is the ink of the letters' outlines. It is for tests.
package inspect
