package dataset

import (
	"bytes"
	"encoding/binary"
	"errors"
	"math"

	"github.com/klauspost/compress/huff0"
)

// entropy writes Zstandard frames (RFC 8878) of pages of floats, whose bytes are
// split into four streams. Every stream becomes a block of its own, so that the
// exponents get a code of their own and the low bits of the mantissa are stored as
// they are. Blocks hold literals alone: there is nothing to find twice in such
// streams, and looking for it takes most of a general encoder's time.
//
// It belongs to one goroutine.
type entropy struct {
	coder  huff0.Scratch
	counts [256]int32 // of a sample
	body   []byte     // scratch: a page
}

// Parts of a frame.
const (
	frameMagic   = 0xFD2FB528
	frameSingle  = 0xA0 // one segment, its size in four bytes, no check sum
	frameHeader  = 4 + 1 + 4
	blockRaw     = 0
	blockRepeats = 1
	blockCoded   = 2
	blockHeader  = 3
	mostBlock    = 128 << 10 // what a block may hold
)

// Sizes of literals, RFC 8878, 3.1.1.3.1.1: four streams with sizes of 14 or of 18
// bits each.
const (
	literalsCoded  = 2
	sizes14        = 2
	sizes18        = 3
	fewestLiterals = 512 // less is stored as it is
)

// worthwhile is the part of a block that a code has to save, as a shift: 1/8.
// Streams that save less are a sixth of those that a code is made for and would
// shorten a file by 1 %.
const worthwhile = 3

// beginFrame begins a frame of so many bytes.
func beginFrame(dst []byte, size int) []byte {
	dst = binary.LittleEndian.AppendUint32(dst, frameMagic)
	return binary.LittleEndian.AppendUint32(append(dst, frameSingle), uint32(size))
}

func appendBlockHeader(dst []byte, kind, size int, last bool) []byte {
	h := kind<<1 | size<<3
	if last {
		h |= 1
	}
	return append(dst, byte(h), byte(h>>8), byte(h>>16))
}

// appendBlock adds a block that holds src, at most mostBlock bytes.
func (e *entropy) appendBlock(dst, src []byte, last bool) ([]byte, error) {
	if len(src) >= fewestLiterals && alike(src) {
		return append(appendBlockHeader(dst, blockRepeats, len(src), last), src[0]), nil
	}
	if len(src) < fewestLiterals || !e.uneven(src) {
		return append(appendBlockHeader(dst, blockRaw, len(src), last), src...), nil
	}
	e.coder.Reuse, e.coder.WantLogLess = huff0.ReusePolicyNone, worthwhile
	coded, _, err := huff0.Compress4X(src, &e.coder)
	switch {
	case errors.Is(err, huff0.ErrIncompressible):
		return append(appendBlockHeader(dst, blockRaw, len(src), last), src...), nil
	case err != nil:
		return dst, err
	}
	format, bits := uint64(sizes14), 14
	if len(src) >= 1<<14 {
		format, bits = sizes18, 18
	}
	header := uint64(literalsCoded) | format<<2 | uint64(len(src))<<4 | uint64(len(coded))<<(4+bits)
	long := (4 + 2*bits + 7) / 8
	dst = appendBlockHeader(dst, blockCoded, long+len(coded)+1, last)
	for k := range long {
		dst = append(dst, byte(header>>(8*k)))
	}
	return append(append(dst, coded...), 0), nil // 0: no sequences
}

// uneven tells whether a code may save what is worthwhile, by a sample: with shares
// p, a code takes −Σ p log₂ p bits a byte at the least. Of n bytes drawn, of which m
// differ, the shares c/n make that too small by (m−1)/(2n ln 2) in the mean (Miller
// and Madow's correction, from memory).
func (e *entropy) uneven(src []byte) bool {
	clear(e.counts[:])
	for k := range samples {
		from := k * (len(src) - sampled) / (samples - 1)
		for _, x := range src[from : from+sampled] {
			e.counts[x]++
		}
	}
	order := int32(0)
	for _, c := range e.counts {
		order += orderOf[c]
	}
	return order > leastOrder
}

// A sample is so many stretches of so many bytes.
const (
	samples = 4
	sampled = 256
	drawn   = samples * sampled // 2^10
)

// orderOf is c log₂ c − 1/(2 ln 2), 0 for c = 0, in parts of 1/1024 bit: n log₂ n less
// their sum is what a code takes for a sample. leastOrder is their sum where that is
// 7 bits a byte, 1/8 less than 8.
var orderOf = func() (order [drawn + 1]int32) {
	for c := 1; c <= drawn; c++ {
		order[c] = int32(math.Round(1024 * (float64(c)*math.Log2(float64(c)) - 0.5/math.Ln2)))
	}
	return order
}()

const leastOrder = 1024 * drawn * (10 - 7)

// alike tells whether all bytes are the same.
func alike(src []byte) bool {
	return bytes.Equal(src[1:], src[:len(src)-1])
}
