"""Every sentence a person meets: spoken in full, shown in brief."""
