"""Small texts for the two readers of YAML: what is written plainly, and what is not.

The tables hold texts alone: what one says, says libyaml.
"""

#: To be read by the quick reader, and as the exact one reads it.
READ = {
    "comments and blank lines": [
        "a: 1", "a: 1\n", "a:\n", "a:", "a:   \n", "a: 1   \n", "a:     1\n", "a: 1\n\n\n", "\n\na: 1\n",
        "a: 1\n   \nb: 2\n", "# c\na: 1\n", "a: 1\n# c\nb: 2\n", "a: 1\n    # c\nb: 2\n", "a:\n# c\n  b: 1\n",
        "a:\n  b: 1\n# c\n  c: 2\n", "#\na: 1\n#", "a: 1\n  # b: 2", "# ½ °\na: 1\n", "a:\n\n  b: 1\n\n  c: 2\n",
        "a: 1 # c\n", "a: 1  # c: d\n", "a: x y # c # d\n", "a: # c\n", "a: # c\n  b: 1 # d\n", "a: # c\n- x # d\n",
        "a: x# y # c\n", "a: 'x # y' # c\n", "a: [x] # [y]\n", "a:\n- b: 1 #\n- c: # d\n  e: 1\n", "a: x #\n", "a: #\n",
        "a:\n- [x] # c\n- 'y' # c\n", "a: x # ½\nb: y\n", "a: 1 # c\r\nb: 2 # d\r\n",
        "a:\n  # - x\n- y\n", "#" * 1000 + "\na: 1\n",
    ],
    "line ends of DOS": [
        "a: 1\r\nb:\r\n- x\r\n", "a: 1\r\nb: 2\n", "a: 1\r\n", "\r\na: 1\r\n\r\n",
    ],
    "groups": [
        "a: x\nb: y\nc: z\n", "b: 1\na: 2\n", "a:\n  c: 1\n  b: 2\nA: 1\n", "a:\nb:\nc:\n", "a:\n  b:\nc:\n",
        "a:\n  b:\n  c:\nd: 1\n", "a:\n b: 1\n c:\n    d: 1\n e: 2\nf: 3\n", "a:\n  b:\n    c:\n      d: 1\ne: 2\n",
        "a:\n  a: 1\nb:\n  a: 1\n",
    ],
    "lists": [
        "a:\n- x\n- y\n", "a:\n  - x\n  - y\n", "a:\n- x\nb: 1\n", "a:\n  - x\nb: 1\n", "a:\n       - x\nb: 1\n",
        "a:\n- x\n\n# c\n- y\n", "a:\n  b:\n  - x\n  c: 1\n", "a:\n  b:\n  - x\nc: 1\n",
        "a:\n- b: 1\n  c: 2\n- b: 3\n", "a:\n  - b: 1\n    c: 2\n  - b: 3\nd: 4\n", "a:\n- b:\n    c: 1\n- d: 2\n",
        "a:\n- b:\n    c: 1\n- d\n", "a:\n- b:\n  c: 1\n", "a:\n- b:\n  - x\n  c: 1\n- y\n",
        "a:\n- b:\n    - x\n  c: 1\nd: 1\n", "a:\n- b:\n- c\n", "a:\n- b:\n", "a:\n- x\n- b: 1\n- y\n- c: 2\n",
        "a:\n- [x, y]\n- [z]\n- []\n", "a:\n- b: [x]\n  c: [y, z]\n",
        "a:\n- b:\n  - c:\n    - d: x\n      e: y\n    f: 1\n  g: 2\n- h\ni: 3\n", "a:\n- -x\n", "a:\n- -4\n",
        "a:\n- x:y\n", "a:\n- http://x\n", "a:\n- 'x: y'\n", 'a:\n- "x: y"\n', "a:\n- x# y\n", 'a:\n- x\n- ""\n',
    ],
    "lists of words": [
        "a: []\n", "a: [x]\n", "a: [x, y z, 2 7/8 in]\n", "a: [x]  \n", "a: [x-y, x -y]\n", "a: [x@y]\n",
        "a: [x (y)]\n", "a: [.5, ...]\n", "a: [no, x]\n",
    ],
    "quotes": [
        "a: ''\n", 'a: ""\n', "a: ' '\n", 'a: "x" \n', "a: 'x: y'\n", "a: '# x'\n", "a: '53 3/8\"'\n",
        "a: \"it's\"\n", "a: '\\x'\n", 'a: "[x]"\n', "a: '&x *y !z'\n", "a: 'a'\n", 'a: "½"\n', "a: '- x'\n",
        "a: '<<'\n",
    ],
    "values": [
        "a: x:y\n", "a: x:y:z\n", "a: 10:05\n", "a: x#y\n", "a: x#\n", "a: (#x\n", "a: x 'y'\n", 'a: 53 3/8"\n',
        "a: it's\n", "a: x & y\n", "a: 3 * 2\n", "a: hot!\n", "a: a [b]\n", "a: a {b}\n", "a: x, y\n", "a: x - y\n",
        "a: x -\n", "a: x ?\n", "a: x  y\n", "a: -x\n", "a: -4\n", "a: -.5\n", "a: +x\n", "a: + x\n", "a: .\n",
        "a: ...\n", "a: /x\n", "a: (x)\n", "a: (\\x\n", "a: x | y > z\n", "a: x % y @ z ` ~\n", "a: x << y\n",
        "a: x :y\n", "a: 2025-03-14\n", "a: _\n", "a: null\nb: yes\nc: 0x1F\nd: 1e3\ne: .nan\nf: 0447\n",
        "a: " + "x" * 997 + "\n",
    ],
    "beyond ASCII": [
        "a: ½ in\n", "a: é\n", "a: \u00a0\n", "a: x\u00a0\n", "a: \u00a0x\n", "a: x\u00a0#y\n", "a: \U0001f600\n",
        "a: x°\n", "a: °:x\n", "a: \u3000\n", "a: \u200b\n",
    ],
    "keys": [
        "0: x\n", "0 deg: x\n", "0447: x\n", "a b: x\n", "a  b: x\n", "a/b: x\n", "a.b: x\n", "a-b: x\n",
        "a - b: x\n", "a -: x\n", "a (b): x\n", "a_b: x\n", "_: x\n", "aé: x\n", "a½b: x\n", "a\u00a0: x\n",
        "null: x\n", "a:\n  0 deg: x\n  n: y\n", "k" * 81 + ": x\n", "a:\n- " + "k" * 81 + ": x\n",
    ],
}  # fmt: skip

#: Left by the quick reader, or read as the exact one does; many of them the exact one refuses.
EITHER = {
    "nothing, and byte order marks": [
        "", "\n", "   ", "#", "# c\n", "\ufeff", "\ufeffa: 1\n", "\ufeff# c\na: 1\n", "\ufeff\na: 1\n",
        "a: \ufeff1\n", "a: 1\n\ufeffb: 2\n", "\ufeff\ufeffa: 1\n",
    ],
    "line ends of old": [
        "a: 1\rb: 2\r", "a: 1\r", "a: 1\n\rb: 2\n", "a: 1\r\r\nb: 2\n", "\ra: 1\n", "# c\ra: 1\n", "a:\r- x\n",
        "a: x\r\n  y\r\n", "a: 1 # c\r\n",
    ],
    "tabs": [
        "a:\t1\n", "a: 1\t\n", "a: \t1\n", "\ta: 1\n", "a:\n\tb: 1\n", "a:\n \tb: 1\n", "a:\n-\tx\n", "a:\n- \tx\n",
        "a: x\ty\n", "a\tb: x\n", "a: 1\n\t\nb: 2\n", "a: 1\n \t# c\nb: 2\n", "# c\tc\na: 1\n", "a: [x,\ty]\n",
        "a: 'x\ty'\n", "a: 1\t# c\n",
    ],
    "comments": [
        "a: 1 # c\n", "a: # c\n", "a: #\n", "a: x # c\n", "a: 'x' # c\n", "a: 'x'# c\n", "a: [x] # c\n",
        "a: [x]# c\n", "a:# c\n", "a:#c\n", "a #: x\n", "a#b: x\n", "a:\n- x # c\n", "a:\n  - # c\n    x\n",
        "a: #c\n  b: 1\n",
    ],
    "not a group": [
        "- a\n", "- a: 1\n", "- a:\n    b: 1\n- c\n", "-\n", "- \n", "a\n", "a b\n", "'a'\n", "[a]\n", "{}\n",
        "{a: 1}\n", "  a: 1\n", "  a: 1\nb: 2\n", "a: 1\n  b: 2\n", " # c\n  a: 1\n  b: 2\n",
    ],
    "indents": [
        "a:\n  b: 1\n c: 2\n", "a:\n    b: 1\n  c: 2\n", "a:\n  b: 1\n   c: 2\n", "a: x\n  b: 1\n",
        "a:\n- x\n  b: 1\n", "a:\n- x\n  - y\n", "a:\n  - x\n- y\n", "a:\n - x\n  - y\n", "a:\n  - x\n - y\n",
        "a:\n- x\n - y\n", "a:\n- b: 1\n   c: 2\n", "a:\n- b: 1\n c: 2\n", "a:\n- b: 1\nc\n", "a: 1\n- x\n",
        "a: 1\n  - x\n", "a:\n  b: 1\n  - x\n", "a:\n  b: 1\n- x\n", "a:\n- x\n  y: 1\n", "a:\n  - x\n  y: 1\n",
        "a:\n  - x\n    y: 1\n", "a:\n- x\nb\n", "a: []\n- x\n", "a: [x]\n  b: 1\n", "a: ''\n  b: 1\n",
        "a: ''\n- x\n", "a:\n- [x]\n  - y\n", "a:\n- [x]\n  b: 1\n", "a:\n- b:\n - x\n", "a:\n- b:\n   - x\n",
        "a:\n- b:\n   c: 1\n", "a:\n- b:\n c: 1\n", "a:\n  b:\n- x\n", "a:\n  b:\n - x\n", "a:\n    b:\n  - x\n",
        "a:\n- b: 1\n- c: 2\n  d: 3\n e: 4\n",
    ],
    "keys twice": [
        "a: 1\na: 2\n", "a:\na:\n", "a: 1\n'a': 2\n", 'a: 1\n"a": 2\n', "a:\n  b: 1\n  b: 2\n",
        "a:\n- b: 1\n  b: 2\n", "a:\n  b: 1\nc: 1\na: 2\n", "a:\n- x\na: 1\n", "a: 1\na:\n- x\n", "a: [x]\na: [y]\n",
    ],
    "values that go on": [
        "a: x\n  y\n", "a: x\n\n  y\n", "a: x\n y z\nb: 1\n", "a:\n  x\n", "a:\n  x\n  y\n", "a:\n  'x'\n",
        "a:\n  [x]\n", "a:\nx\n", "a:\n- x\n  y\n", "a:\n- x\n y\n", "a:\n- x\n\n  y\n", "a: 'x\n  y'\n",
        'a: "x\n  y"\n', "a: [x,\n  y]\n", "a: [x,\ny]\n", "a:\n-\n  x\n", "a:\n-\n  b: 1\n", 'a: "x\\\n  y"\n',
        "a: x\n# c\n  y\n", "a: 'x\n\n# y'\n", "a:\n\n  x\n", "a: 'x\nb: y'\n", 'a: "x\nb: y"\nc: 1\n',
        "a: [x\nb: y\n]\n",
    ],
    "blocks": [
        "a: |\n  x\n", "a: |\n  b: 1\n", "a: >-\n  - x\n", "a: |2\n    x\n", "a: |+\n\n\n", "a: >\n  # x\nb: 1\n",
        "a: |\nb: 1\n", "a:\n- |\n  x\n", "a: | # c\n  x\n", "a: |x\n", "a: >-\n b: 1\n\n c: 2\n",
    ],
    "dashes": [
        "a:\n- - x\n", "a:\n- - x\n  - y\n", "a:\n- - b: 1\n", "a:\n-  x\n", "a:\n-  b: 1\n",
        "a:\n-  b: 1\n   c: 2\n", "a:\n-  b: 1\n  c: 2\n", "a:\n-x\n", "a:\n-b: 1\n", "a:\n--\n", "a:\n- -\n",
        "a:\n- --\n", "a:\n- - -\n", "a:\n-\n", "a:\n- \n", "a:\n-\n- x\n", "a:\n- \n  b: 1\n", "a: - x\n", "a: -\n",
        "a: - \n", "a: --\n", "a: --x\n", "a: -:\n", "a: -,\n", "a: -#\n", "a: -é\n", "a:\n- - [x]\n",
        "a:\n- []\n  - y\n",
    ],
    "colons and keys": [
        "a : 1\n", "a : \n", "a :1\n", "a  : 1\n", "a:\n- b : 1\n", "'a': 1\n", '"a": 1\n', "'a' : 1\n", "[a]: 1\n",
        "[a]: [b]\n", "{a: 1}: 2\n", "a:\n- [x]: 1\n", "a:\n- 'b': 1\n", "a:\n- 'b' : 1\n", ": x\n", ":\n",
        "a:\n- : x\n", ":a: x\n",
    ],
    "colons in values": [
        "a:b\n", "a:b: c\n", "a::b\n", "a:: b\n", "a:: \n", "a: b: c\n", "a: b:\n", "a: b: \n", "a: b :\n",
        "a: b : c\n", "a: :\n", "a: : b\n", "a: :b\n", "a: ::\n", "a: b::\n", "a: b: # c\n", "a:\n- b: c: d\n",
        "a: '1': 2\n", "a: 'x':\n", "a:\n- 'x':\n", "a: [b]: c\n", "a: [b]:\n", "a:\n- [b]:\n", "a:\n- x: [y]: z\n",
        'a: "b": c\n', "a: x y: z\n", "a: x, y: z\n", "a: b\nc: d: e\nf: g\n", "a: http://x:\n", "a:\n- b:c:\n",
    ],
    "brackets": [
        "a: [\n", "a: ]\n", "a: [x\n", "a: x]\n", "a: [x]]\n", "a: [[x]]\n", "a: [x], y\n", "a: [x] y\n",
        "a: [x,y]\n", "a: [x , y]\n", "a: [ x ]\n", "a: [x, ]\n", "a: [x,, y]\n", "a: [, x]\n", "a: [,]\n",
        "a: [ ]\n", "a: [x: y]\n", "a: [x:y]\n", "a: [x:]\n", "a: [x:, y]\n", "a: [:x]\n", "a: [x #y]\n",
        "a: [x#y]\n", "a: [#x]\n", "a: [-x]\n", "a: [- x]\n", "a: [-]\n", "a: [x -]\n", "a: [x - y]\n", "a: ['x']\n",
        'a: ["x, y"]\n', "a: [x'y]\n", "a: [@x]\n", "a: [%x]\n", "a: [&x y]\n", "a: [*x]\n", "a: [!x y]\n",
        "a: [? x]\n", "a: [?x]\n", "a: [x?]\n", "a: [{}]\n", "a: [x{y]\n", "a: [é]\n", "a: [xé, y]\n", "a: [(x)]\n",
        "a: [+x]\n", "a: [---]\n", "a: [...]\n", "a: [x\ty]\n", "a: [x]:y\n",
    ],
    "braces": [
        "a: {}\n", "a: {b: 1}\n", "a: {b: 1\n", "a: {b}\n", "a: }\n", "a: {b: [x]}\n", "a: x}\n", "a:\n- {b: 1}\n",
        "a: {b: 1} c\n",
    ],
    "quotes": [
        'a: "\n', "a: '\n", "a: 'x\n", 'a: "x\n', "a: 'x' y\n", 'a: "x"y\n', "a: 'x''y'\n", "a: ''''\n",
        'a: "x\\"y"\n', 'a: "\\t"\n', 'a: "\\x1b"\n', 'a: "\\q"\n', 'a: "\\"\n', 'a: "\\\\"\n', "a: '\"\n",
        "a: 'x'y'\n", 'a: "x""y"\n', "a: 'x' 'y'\n", "a: 'x'\"y\"\n", "a: 'x', y\n",
    ],
    "documents": [
        "---\na: 1\n", "--- a: 1\n", "---\n", "a: 1\n---\n", "a: 1\n---\nb: 2\n", "a: 1\n...\n", "a: 1\n...\nb: 2\n",
        "...\na: 1\n", "---a: 1\n", "--- # c\na: 1\n", "a:\n  ---\n", "a:\n---\n", "a:\n...\n", "a: ---\n",
        "a: --- x\n", "a: ... x\n", "a: 'x\n---\ny'\n", "a:\n- ---\n", "a:\n- ...\n", "a:\n- --- x\n", "---: x\n",
        "...: x\n", "... : x\n", "--- : x\n", "...a: x\n", "a: 1\n--- b\n", "a: 1\n ---\n", "a: 1\n ...\n",
        "a: ...\n---\n", "a: 1\n...x: 2\n", "a: 1\n... # c\n",
    ],
    "directives": [
        "%YAML 1.2\n---\na: 1\n", "%YAML 1.2\na: 1\n", "%TAG ! x\n---\na: 1\n", "%: x\n", "a: 1\n%YAML 1.2\n",
        "a: %x\n", "a: x%\n", "%a: 1\n",
    ],
    "question marks": [
        "? x\n", "? x\n: y\n", "? a\n: b\nc: d\n", "a: ? x\n", "a: ?x\n", "?a: x\n", "? [a]\n: b\n", "a: 1\n? b\n",
        "a:\n- ? x\n", "a:\n- ?x\n", "a: ?\n", "?: x\n",
    ],
    "merge keys": [
        "<<: x\n", "<<: {a: 1}\n", "a:\n  <<: x\n", "a: <<\n", "a:\n- <<\n", "a:\n- <<: x\n", "'<<': x\n",
        "a: [<<]\n", "=: x\n", "a: =\n",
    ],
    "anchors, aliases, tags": [
        "&a b: c\n", "a: &x\n", "a: &x y\n", "a: &x\n  b: 1\n", "a: *x\n", "*x : y\n", "*x: y\n", "a: !x\n",
        "a: ! x\n", "a: !!str x\n", "!!map\na: 1\n", "a:\n- &x y\n", "a:\n- !x y\n", "a:\n- *x\n", "a:\n- &x b: 1\n",
        "&x\na: 1\n", "a: &\n", "a: *\n", "a: !\n",
    ],
    "other signs": [
        "a: @x\n", "a: `x`\n", "@: x\n", "`a`: x\n", "a: ,\n", "a: ,x\n", "a: >\n", "a: |\n", "a: ~\n", "~: x\n",
        "a: $x\n", "a: ^x\n", "a: =x\n", "a: ;x\n", "a: <x\n", "a: >x\n", "a: \\x\n", "a: )x\n", "a: *\n- x\n",
    ],
    "controls": [
        "a: \x00\n", "a: x\x00\n", "\x00", "a: \x07\n", "a: \x1b[31m\n", "a: \x7f\n", "# \x7f\na: 1\n",
        "# \x1b\na: 1\n", "a\x0b: 1\n", "a: x\x0cb: 2\n", "a: 1\x1cb: 2\n", "\x0ca: 1\n",
    ],
    "line ends nobody sees": [
        "a: \u0085\n", "a: x\u0085b: y\n", "a: x\u2028b: y\n", "# \u2029a: 1\n", "a: \u202ex\n", "a: \ufffe\n",
        "a: \uffff\n", "a: \U0010ffff\n", "a: \ud7ff\ue000\n",
    ],
    "beyond ASCII": [
        "é: x\n", "½: x\n", "\u00a0: x\n", "\u00a0a: x\n", "a:\n\u00a0b: 1\n", "a:\u00a0x\n", "a:\n-\u00a0x\n",
        "a:\n- \u00a0x\n", "a:\n- \u00a0: x\n", "a: 1\n\u00a0\nb: 2\n", "a: 1\n\u00a0# c\nb: 2\n", "a:\n\u2003- x\n",
        "a : x\u00a0\n", "\u3000a: x\n",
    ],
    "long keys and lines": [
        "#" * 1001 + "\na: 1\n", "a: " + "x" * 998 + "\n", "a: " + "x y " * 2000 + "\n", "a: '" + "x" * 5000 + "'\n",
        "a: 1" + " " * 2000 + "\n", "a: [" + "x, " * 999 + "x]\n", "a: 1 # " + "c" * 2000 + "\n",
        " " * 2000 + "\na: 1\n",
        "k" * 82 + ": x\n", "k" * 1023 + ": x\n", "k" * 1024 + ": x\n", "k" * 1025 + ": x\n", "k" * 2000 + "\n",
        "a:\n- " + "k" * 1025 + ": x\n", "a:\n" + " " * 1100 + "b: x\n", "a:" + " " * 1100 + "x\n",
        "a:\n- [" + "x" * 1100 + "]\n", "a: [" + "x" * 1100 + "]: y\n", "a:\n- " + "x" * 1100 + "\n",
        "a:\n- '" + "x" * 1100 + "'\n", "é" * 40 + ": x\n", "a" + "é" * 41 + ": x\n", "a" + "½" * 1030 + ": x\n",
    ],
}  # fmt: skip

#: What no text holds: bytes that are not UTF-8.
NO_TEXT = [
    b"\xff\xfea\x00:\x00", b"a: \xff\n", b"a: 350 \xb0F\n", b"# \xc2\na: 1\n", b"a\xc2: x\n", b"a: \xc2",
    b"a: \xed\xa0\x80\n", b"a: \xc0\xaf\n", b"\xefa: 1\n", b"a: '\xe2\x82'\n",
]  # fmt: skip
