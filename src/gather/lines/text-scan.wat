;; Looks through the text of a log, sixteen bytes at a time: where its lines end, and where literals stand in it.
;; `npm run wasm` makes text-scan-code.ts of it; text-memory.ts says where everything stands in the memory.
(module
  (memory (import "env" "memory") 1)

  ;; What `lines` found besides the line feeds.
  (global $withText (export "withText") (mut i32) (i32.const 0))
  (global $longest (export "longest") (mut i32) (i32.const 0))
  (global $isAscii (export "isAscii") (mut i32) (i32.const 0))
  (global $hasZero (export "hasZero") (mut i32) (i32.const 0))
  (global $hasEscape (export "hasEscape") (mut i32) (i32.const 0))

  ;; Writes the index of each line feed of the text to `ends`, and says how many there are. Sixteen bytes behind the
  ;; text must be there, whatever they hold.
  (func (export "lines") (param $text i32) (param $length i32) (param $ends i32) (result i32)
    (local $at i32) (local $beyond i32) (local $out i32) (local $start i32) (local $feed i32) (local $size i32)
    (local $mask i32) (local $bytes v128) (local $all v128) (local $least v128) (local $escapes v128)
    (local $with i32) (local $most i32)
    (local.set $out (local.get $ends))
    (local.set $start (local.get $text))
    (local.set $beyond (i32.add (local.get $text) (local.get $length)))
    (local.set $least (i8x16.splat (i32.const 255)))
    (local.set $at (local.get $text))
    (block $done
      (loop $vectors
        (br_if $done (i32.ge_u (local.get $at) (local.get $beyond)))
        (local.set $bytes (v128.load (local.get $at)))
        (local.set $mask (i8x16.bitmask (i8x16.eq (local.get $bytes) (i8x16.splat (i32.const 10)))))
        (if (i32.gt_u (i32.add (local.get $at) (i32.const 16)) (local.get $beyond))
          (then
            ;; The last few bytes: what stands behind them counts for nothing, neither here nor as a zero.
            (local.set $size (i32.sub (local.get $beyond) (local.get $at)))
            (local.set $mask (i32.and (local.get $mask)
              (i32.sub (i32.shl (i32.const 1) (local.get $size)) (i32.const 1))))
            (local.set $bytes (v128.bitselect (local.get $bytes) (i8x16.splat (i32.const 32))
              (i8x16.lt_u (v128.const i8x16 0 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15)
                (i8x16.splat (local.get $size)))))))
        (local.set $all (v128.or (local.get $all) (local.get $bytes)))
        (local.set $least (i8x16.min_u (local.get $least) (local.get $bytes)))
        (local.set $escapes (v128.or (local.get $escapes)
          (i8x16.eq (local.get $bytes) (i8x16.splat (i32.const 27)))))
        (block $none
          (loop $feeds
            (br_if $none (i32.eqz (local.get $mask)))
            (local.set $feed (i32.add (local.get $at) (i32.ctz (local.get $mask))))
            (local.set $mask (i32.and (local.get $mask) (i32.sub (local.get $mask) (i32.const 1))))
            (i32.store (local.get $out) (i32.sub (local.get $feed) (local.get $text)))
            (local.set $out (i32.add (local.get $out) (i32.const 4)))
            (local.set $size (i32.sub (local.get $feed) (local.get $start)))
            ;; A line with text has two bytes, or one that is no carriage return.
            (local.set $with (i32.add (local.get $with)
              (i32.or
                (i32.gt_u (local.get $size) (i32.const 1))
                (i32.and
                  (i32.eq (local.get $size) (i32.const 1))
                  (i32.ne (i32.load8_u (local.get $start)) (i32.const 13))))))
            (if (i32.ge_u (local.get $size) (local.get $most))
              (then (local.set $most (i32.add (local.get $size) (i32.const 1)))))
            (local.set $start (i32.add (local.get $feed) (i32.const 1)))
            (br $feeds)))
        (local.set $at (i32.add (local.get $at) (i32.const 16)))
        (br $vectors)))
    (global.set $withText (local.get $with))
    (global.set $longest (local.get $most))
    (global.set $isAscii (i32.eqz (i8x16.bitmask (local.get $all))))
    (global.set $hasZero (i32.eqz (i8x16.all_true (local.get $least))))
    (global.set $hasEscape (v128.any_true (local.get $escapes)))
    (i32.shr_u (i32.sub (local.get $out) (local.get $ends)) (i32.const 2)))

  ;; Writes where literals stand to `positions` and which to `ids`, at most `most`, and says how many; -1: there are more.
  ;; Bytes 0 to 127 hold, for four bytes in a row, which groups of literals may have such a lower and upper half there
  ;; (a bit a group); bytes 128 to 159 the first literal of each of the eight groups. A literal is, from `literals` on,
  ;; five numbers: where its bytes stand, how many they are, which of them the four begin with, the number of the next
  ;; literal of its group or -1, and its id. Letters of the literals are small ones.
  (func (export "find")
    (param $text i32) (param $length i32) (param $literals i32)
    (param $positions i32) (param $ids i32) (param $most i32) (result i32)
    (local $at i32) (local $beyond i32) (local $count i32)
    (local $lo0 v128) (local $hi0 v128) (local $lo1 v128) (local $hi1 v128) (local $lo2 v128) (local $hi2 v128) (local $lo3 v128) (local $hi3 v128)
    (local $bytes v128) (local $groups v128) (local $low v128)
    (local $mask i32) (local $here i32) (local $bits i32) (local $literal i32) (local $entry i32)
    (local $start i32) (local $own i32) (local $size i32) (local $i i32) (local $byte i32)
    (local.set $lo0 (v128.load (i32.const 0)))
    (local.set $hi0 (v128.load (i32.const 16)))
    (local.set $lo1 (v128.load (i32.const 32)))
    (local.set $hi1 (v128.load (i32.const 48)))
    (local.set $lo2 (v128.load (i32.const 64)))
    (local.set $hi2 (v128.load (i32.const 80)))
    (local.set $lo3 (v128.load (i32.const 96)))
    (local.set $hi3 (v128.load (i32.const 112)))
    (local.set $low (i8x16.splat (i32.const 15)))
    (local.set $beyond (i32.add (local.get $text) (local.get $length)))
    (local.set $at (local.get $text))
    (block $done
      (loop $vectors
        (br_if $done (i32.ge_u (local.get $at) (local.get $beyond)))
        (local.set $bytes (v128.load (local.get $at)))
        (local.set $groups (v128.and
          (i8x16.swizzle (local.get $lo0) (v128.and (local.get $bytes) (local.get $low)))
          (i8x16.swizzle (local.get $hi0) (v128.and (i16x8.shr_u (local.get $bytes) (i32.const 4)) (local.get $low)))))
        (local.set $bytes (v128.load offset=1 (local.get $at)))
        (local.set $groups (v128.and (local.get $groups) (v128.and
          (i8x16.swizzle (local.get $lo1) (v128.and (local.get $bytes) (local.get $low)))
          (i8x16.swizzle (local.get $hi1) (v128.and (i16x8.shr_u (local.get $bytes) (i32.const 4)) (local.get $low))))))
        (local.set $bytes (v128.load offset=2 (local.get $at)))
        (local.set $groups (v128.and (local.get $groups) (v128.and
          (i8x16.swizzle (local.get $lo2) (v128.and (local.get $bytes) (local.get $low)))
          (i8x16.swizzle (local.get $hi2) (v128.and (i16x8.shr_u (local.get $bytes) (i32.const 4)) (local.get $low))))))
        (local.set $bytes (v128.load offset=3 (local.get $at)))
        (local.set $groups (v128.and (local.get $groups) (v128.and
          (i8x16.swizzle (local.get $lo3) (v128.and (local.get $bytes) (local.get $low)))
          (i8x16.swizzle (local.get $hi3) (v128.and (i16x8.shr_u (local.get $bytes) (i32.const 4)) (local.get $low))))))
        (if (v128.any_true (local.get $groups))
          (then
            (v128.store (i32.const 160) (local.get $groups))
            (local.set $mask (i8x16.bitmask (i8x16.ne (local.get $groups) (v128.const i64x2 0 0))))
            (loop $places
              (local.set $here (i32.ctz (local.get $mask)))
              (local.set $bits (i32.load8_u offset=160 (local.get $here)))
              (local.set $here (i32.add (local.get $at) (local.get $here)))
              (loop $eachGroup
                (local.set $literal (i32.load offset=128 (i32.shl (i32.ctz (local.get $bits)) (i32.const 2))))
                (loop $eachLiteral
                  (local.set $entry (i32.add (local.get $literals) (i32.mul (local.get $literal) (i32.const 20))))
                  (local.set $start (i32.sub (local.get $here) (i32.load offset=8 (local.get $entry))))
                  (local.set $size (i32.load offset=4 (local.get $entry)))
                  (block $other
                    (br_if $other (i32.lt_s (local.get $start) (local.get $text)))
                    (br_if $other (i32.gt_u (i32.add (local.get $start) (local.get $size)) (local.get $beyond)))
                    (local.set $own (i32.load (local.get $entry)))
                    (local.set $i (i32.const 0))
                    (loop $letters
                      (local.set $byte (i32.load8_u (i32.add (local.get $start) (local.get $i))))
                      (if (i32.lt_u (i32.sub (local.get $byte) (i32.const 65)) (i32.const 26))
                        (then (local.set $byte (i32.add (local.get $byte) (i32.const 32)))))
                      (br_if $other (i32.ne (local.get $byte)
                        (i32.load8_u (i32.add (local.get $own) (local.get $i)))))
                      (local.set $i (i32.add (local.get $i) (i32.const 1)))
                      (br_if $letters (i32.lt_u (local.get $i) (local.get $size))))
                    (if (i32.eq (local.get $count) (local.get $most)) (then (return (i32.const -1))))
                    (i32.store (local.get $positions) (i32.sub (local.get $here) (local.get $text)))
                    (i32.store (local.get $ids) (i32.load offset=16 (local.get $entry)))
                    (local.set $positions (i32.add (local.get $positions) (i32.const 4)))
                    (local.set $ids (i32.add (local.get $ids) (i32.const 4)))
                    (local.set $count (i32.add (local.get $count) (i32.const 1))))
                  (local.set $literal (i32.load offset=12 (local.get $entry)))
                  (br_if $eachLiteral (i32.ge_s (local.get $literal) (i32.const 0))))
                (local.set $bits (i32.and (local.get $bits) (i32.sub (local.get $bits) (i32.const 1))))
                (br_if $eachGroup (local.get $bits)))
              (local.set $mask (i32.and (local.get $mask) (i32.sub (local.get $mask) (i32.const 1))))
              (br_if $places (local.get $mask)))))
        (local.set $at (i32.add (local.get $at) (i32.const 16)))
        (br $vectors)))
    (local.get $count)))
