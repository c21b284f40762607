// Package qr makes QR codes: a text as squares, dark or light, that a camera reads back.
//
// Main entry: Encode. In: a text of up to 1663 bytes. Out: the squares without their light
// margin, in the smallest of the 40 sizes that holds the text, with a quarter of it to spare for
// dirt and scratches (level Q). Same text, same squares. Method: ISO/IEC 18004 (recalled): bytes,
// Reed-Solomon codes over GF(256), the mask of least penalty. It knows neither the modes for
// figures and capitals, which are shorter, nor the other levels.
package qr
