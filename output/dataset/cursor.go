package dataset

import (
	"errors"
	"fmt"
	"io"

	"github.com/parquet-go/parquet-go"
)

// cursor walks one column of a file from its first row to its last, page by
// page.
type cursor struct {
	shard  *Shard
	column int
	group  int  // row group being read
	only   bool // to read no other one
	ended  bool // it was the only one
	pages  parquet.Pages
	page   parquet.Page
	levels []byte   // by row: present or not; empty where all are
	row    int      // next row of the page
	rows   int      // of the page
	value  int      // next value of the page: rows less nulls
	words  []string // of the row group, in a column of words
}

// span is a run of rows inside one page.
type span struct {
	levels []byte // by row; empty where every row has a value
	rows   int
	value  int // number of the first value in the page
}

// next answers the coming rows, at most limit of them, and io.EOF after the
// last.
func (c *cursor) next(limit int) (span, error) {
	for c.row == c.rows {
		if err := c.turn(); err != nil {
			return span{}, err
		}
	}
	s := span{rows: min(limit, c.rows-c.row), value: c.value}
	values := s.rows
	if len(c.levels) > 0 {
		s.levels = c.levels[c.row : c.row+s.rows]
		values = countPresent(s.levels)
	}
	c.row += s.rows
	c.value += values
	return s, nil
}

func countPresent(levels []byte) (n int) {
	for _, l := range levels {
		n += int(l)
	}
	return n
}

// turn goes to the next page.
func (c *cursor) turn() error {
	if c.pages == nil {
		groups := c.shard.file.RowGroups()
		if c.group == len(groups) || c.ended {
			return io.EOF
		}
		if err := c.shard.checkPages(c.group, c.column); err != nil {
			return c.shard.damaged(err)
		}
		c.pages = groups[c.group].ColumnChunks()[c.column].Pages()
	}
	parquet.Release(c.page)
	c.page = nil
	page, err := c.pages.ReadPage()
	if errors.Is(err, io.EOF) {
		return c.nextGroup()
	}
	if err != nil {
		return c.shard.damaged(err)
	}
	c.page, c.levels = page, page.DefinitionLevels()
	c.row, c.rows, c.value = 0, int(page.NumRows()), 0
	if len(c.levels) > 0 && len(c.levels) != c.rows {
		return c.shard.damaged(fmt.Errorf("a page of %d rows has %d levels", c.rows, len(c.levels)))
	}
	return c.readWords()
}

// readWords reads the words of a row group, once; the pages hold their numbers.
func (c *cursor) readWords() error {
	if c.words != nil || c.page.Type().Kind() != parquet.ByteArray && c.page.Dictionary() == nil {
		return nil
	}
	dictionary := c.page.Dictionary()
	if dictionary == nil {
		return c.shard.damaged(errors.New("a column of words has no dictionary"))
	}
	c.words = make([]string, dictionary.Len())
	for i := range c.words {
		c.words[i] = string(dictionary.Index(int32(i)).ByteArray())
	}
	return nil
}

func (c *cursor) nextGroup() error {
	err := c.pages.Close()
	c.pages = nil
	c.moveTo(c.group + 1)
	c.ended = c.only
	return err
}

// readOnly goes to the first row of a row group, to read that one alone.
func (c *cursor) readOnly(group int) {
	c.moveTo(group)
	c.only, c.ended = true, false
}

// moveTo goes to the first row of a row group.
func (c *cursor) moveTo(group int) {
	c.close()
	c.words, c.group = nil, group
	c.row, c.rows, c.levels = 0, 0, nil
}

// close lets go of the page being read.
func (c *cursor) close() {
	parquet.Release(c.page)
	if c.pages != nil {
		_ = c.pages.Close()
	}
	c.page, c.pages = nil, nil
}
