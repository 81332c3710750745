package dataset

import (
	"encoding/binary"
	"errors"
	"math"
)

// The types of Thrift's compact protocol, in which the notes of a Parquet file
// are written (Apache Thrift specification, thrift-compact-protocol.md).
const (
	compactStop   = 0
	compactTrue   = 1
	compactFalse  = 2
	compactByte   = 3
	compactInt64  = 6 // 4 and 5 are shorter integers, written alike
	compactDouble = 7
	compactBinary = 8
	compactList   = 9
	compactSet    = 10
	compactMap    = 11
	compactStruct = 12
)

// deepest is more than the notes of a Parquet file are nested.
const deepest = 24

var errCompact = errors.New("its notes are not well formed")

// compactLength is how many bytes a struct of the compact protocol takes. It
// checks every length on the way against the bytes that are there: who decodes
// the struct afterwards takes no more memory than a multiple of them.
func compactLength(data []byte) (int, error) {
	c := compactWalk{data: data}
	c.structure(0)
	if c.bad {
		return 0, errCompact
	}
	return c.at, nil
}

// compactWalk goes through bytes; once bad, it stays where it is.
type compactWalk struct {
	data []byte
	at   int
	bad  bool
}

// skip passes n bytes.
func (c *compactWalk) skip(n uint64) {
	if n > uint64(len(c.data)-c.at) {
		c.bad = true
		return
	}
	c.at += int(n)
}

func (c *compactWalk) one() byte {
	if c.skip(1); c.bad {
		return 0
	}
	return c.data[c.at-1]
}

func (c *compactWalk) varint() uint64 {
	n, size := binary.Uvarint(c.data[c.at:])
	if size <= 0 {
		c.bad = true
		return 0
	}
	c.at += size
	return n
}

// structure passes fields until the one that ends them.
func (c *compactWalk) structure(depth int) {
	for !c.bad {
		head := c.one()
		if head&0x0f == compactStop {
			return
		}
		if head>>4 == 0 {
			c.varint() // the field's number, written out
		}
		c.value(head&0x0f, depth, true)
	}
}

// value passes one value. A truth value takes a byte in a list, none in a field.
func (c *compactWalk) value(kind byte, depth int, field bool) {
	if depth > deepest {
		c.bad = true
		return
	}
	switch {
	case kind == compactTrue || kind == compactFalse:
		if !field {
			c.skip(1)
		}
	case kind == compactByte:
		c.skip(1)
	case kind <= compactInt64:
		c.varint()
	case kind == compactDouble:
		c.skip(8)
	case kind == compactBinary:
		c.skip(c.varint())
	case kind == compactList || kind == compactSet:
		c.list(depth)
	case kind == compactMap:
		c.mapping(depth)
	case kind == compactStruct:
		c.structure(depth + 1)
	default:
		c.bad = true
	}
}

// few refuses more elements than bytes are left: each takes one at the least.
func (c *compactWalk) few(n uint64) {
	if n > uint64(len(c.data)-c.at) || n > math.MaxInt32 {
		c.bad = true
	}
}

func (c *compactWalk) list(depth int) {
	head := c.one()
	n := uint64(head >> 4)
	if n == 15 {
		n = c.varint()
	}
	c.few(n)
	for ; n > 0 && !c.bad; n-- {
		c.value(head&0x0f, depth+1, false)
	}
}

func (c *compactWalk) mapping(depth int) {
	n := c.varint()
	c.few(n)
	if n == 0 || c.bad {
		return
	}
	kinds := c.one()
	for ; n > 0 && !c.bad; n-- {
		c.value(kinds>>4, depth+1, false)
		c.value(kinds&0x0f, depth+1, false)
	}
}
