package dataset

import (
	"sync"

	"github.com/klauspost/compress/zstd"
	"github.com/parquet-go/parquet-go/format"
)

// codec is Zstandard for the pages that the library writes; those of floats are
// written by entropy.
type codec struct {
	once    sync.Once
	encoder *zstd.Encoder
	decoder *zstd.Decoder
	err     error
}

// compression is shared: EncodeAll and DecodeAll may run side by side.
var compression codec

func (c *codec) start() error {
	c.once.Do(func() {
		c.encoder, c.err = zstd.NewWriter(nil,
			zstd.WithEncoderLevel(zstd.SpeedFastest),
			zstd.WithWindowSize(pageRows),
			zstd.WithEncoderCRC(false), // Parquet pages have one
			zstd.WithZeroFrames(true),
		)
		if c.err == nil {
			c.decoder, c.err = zstd.NewReader(nil)
		}
	})
	return c.err
}

// String is the name that error messages use.
func (c *codec) String() string { return "ZSTD" }

// CompressionCodec is the code that the file's pages carry.
func (c *codec) CompressionCodec() format.CompressionCodec { return format.Zstd }

// Encode fills dst with src compressed.
func (c *codec) Encode(dst, src []byte) ([]byte, error) {
	if err := c.start(); err != nil {
		return dst, err
	}
	return c.encoder.EncodeAll(src, dst[:0]), nil
}

// Decode fills dst with src decompressed.
func (c *codec) Decode(dst, src []byte) ([]byte, error) {
	if err := c.start(); err != nil {
		return dst, err
	}
	return c.decoder.DecodeAll(src, dst[:0])
}
