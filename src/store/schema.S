/* schema.sql as the string store_schema. */
    .section .rodata
    .global store_schema
store_schema:
    .incbin "schema.sql"
    .byte 0
    .section .note.GNU-stack,"",@progbits
