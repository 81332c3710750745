// Package durable writes files that are there whole or not at all.
//
// It takes bytes from output/dataset and its neighbours and leaves files: each
// is written beside its name under a temporary one that ends in .tmp, flushed,
// renamed, and its folder flushed. It also keeps two processes from working on
// one folder. All of it goes through the small interface FS, so that a test can
// let every single step fail. It knows nothing of what the bytes mean, and it
// never lists a folder to decide what is there.
package durable
