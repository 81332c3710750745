package dataset

import (
	"bytes"
	"encoding/binary"
	"errors"

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
	counts [256]uint32 // of a sample
	body   []byte      // scratch: a page
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

// worthwhile is the part of a block that a code has to save, as a shift: 1/32.
const worthwhile = 5

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
// p, a code takes −Σ p log₂ p bits a byte at the least, and that is no less than
// −log₂ Σ p². Of n bytes drawn, Σ c(c−1) over their counts is n(n−1) Σ p² in the
// mean, within 2 % where all bytes are as frequent.
func (e *entropy) uneven(src []byte) bool {
	clear(e.counts[:])
	n := uint64(0)
	for k := range samples {
		from := k * (len(src) - sampled) / (samples - 1)
		for _, x := range src[from : from+sampled] {
			e.counts[x]++
		}
		n += sampled
	}
	pairs := uint64(0)
	for _, c := range e.counts {
		pairs += uint64(c) * (uint64(c) - 1)
	}
	return pairs*leastPairs > n*(n-1)
}

// A sample is so many stretches of so many bytes.
const (
	samples = 4
	sampled = 256
)

// leastPairs is 2^7.75: what no code makes shorter by more than 1/32.
const leastPairs = 215

// alike tells whether all bytes are the same.
func alike(src []byte) bool {
	return bytes.Equal(src[1:], src[:len(src)-1])
}
