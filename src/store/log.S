/* log.sql as the string store_log_schema. */
    .section .rodata
    .global store_log_schema
store_log_schema:
    .incbin "log.sql"
    .byte 0
    .section .note.GNU-stack,"",@progbits
