CREATE TABLE `handed_sheets` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`at` text NOT NULL,
	`sheet` text NOT NULL,
	`subject` text,
	`message` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `handed_sheets_by_machine` ON `handed_sheets` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `sale_parts` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`part_id` text NOT NULL,
	`item_id` text,
	`cost_minor` integer,
	FOREIGN KEY (`machine_tag`) REFERENCES `sales`(`machine_tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`part_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`item_id`) REFERENCES `shelf_items`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `sale_parts_by_machine` ON `sale_parts` (`machine_tag`);--> statement-breakpoint
CREATE INDEX `sale_parts_by_item` ON `sale_parts` (`item_id`);--> statement-breakpoint
CREATE TABLE `sales` (
	`machine_tag` text PRIMARY KEY NOT NULL,
	`started_at` text NOT NULL,
	`price_minor` integer,
	`other_cost_minor` integer,
	`left_out` text NOT NULL,
	`made_customer` integer DEFAULT false NOT NULL,
	`sheet_seen_at` text,
	`words` text,
	`handed_at` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action
);
