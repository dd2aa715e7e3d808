CREATE TABLE `account_codes` (
	`code_hash` text PRIMARY KEY NOT NULL,
	`account_id` integer NOT NULL,
	`created_at` text NOT NULL,
	`expires_at` text NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `account_codes_by_account` ON `account_codes` (`account_id`);--> statement-breakpoint
CREATE TABLE `accounts` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`name` text NOT NULL,
	`name_key` text NOT NULL,
	`role` text NOT NULL,
	`password_hash` text,
	`password_at` text,
	`created_at` text NOT NULL,
	`disabled_at` text,
	CONSTRAINT "accounts_role" CHECK("accounts"."role" in ('owner', 'staff'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `accounts_by_name` ON `accounts` (`name_key`);--> statement-breakpoint
CREATE TABLE `api_tokens` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`name` text NOT NULL,
	`token_hash` text NOT NULL,
	`scope` text NOT NULL,
	`account_id` integer NOT NULL,
	`created_at` text NOT NULL,
	`used_at` text,
	`revoked_at` text,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "api_tokens_scope" CHECK("api_tokens"."scope" in ('read', 'write'))
);
--> statement-breakpoint
CREATE UNIQUE INDEX `api_tokens_by_hash` ON `api_tokens` (`token_hash`);--> statement-breakpoint
CREATE TABLE `former_owners` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`customer_id` text,
	`until` text NOT NULL,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `former_owners_by_machine` ON `former_owners` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `job_steps` (
	`job_id` text NOT NULL,
	`position` integer NOT NULL,
	`step` text NOT NULL,
	`done_at` text,
	PRIMARY KEY(`job_id`, `position`),
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE TABLE `jobs` (
	`id` text PRIMARY KEY NOT NULL,
	`question_id` text NOT NULL,
	`answer_id` integer NOT NULL,
	`option_id` text NOT NULL,
	`machine_tag` text NOT NULL,
	`customer_id` text,
	`fitted_by` text NOT NULL,
	`state` text NOT NULL,
	`agreed_at` text NOT NULL,
	`promise` text NOT NULL,
	`agreed_minor` integer NOT NULL,
	`booked_for` text,
	`deposit_minor` integer,
	`deposit_at` text,
	`fitted_at` text,
	`settled_minor` integer,
	`settled_at` text,
	`told_at` text,
	`remind_at` text,
	`note` text,
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`answer_id`) REFERENCES `answers`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `jobs_by_machine` ON `jobs` (`machine_tag`);--> statement-breakpoint
CREATE INDEX `jobs_by_question` ON `jobs` (`question_id`);--> statement-breakpoint
CREATE INDEX `jobs_by_state` ON `jobs` (`state`);--> statement-breakpoint
CREATE TABLE `owner_links` (
	`token_hash` text PRIMARY KEY NOT NULL,
	`machine_tag` text NOT NULL,
	`customer_id` text,
	`created_at` text NOT NULL,
	`expires_at` text NOT NULL,
	`revoked_at` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `owner_links_by_machine` ON `owner_links` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `owner_reports` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`job_id` text,
	`customer_id` text,
	`at` text NOT NULL,
	`title_id` text NOT NULL,
	`setting_id` text NOT NULL,
	`average_fps` real NOT NULL,
	`low1_fps` real,
	`note` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`title_id`) REFERENCES `titles`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`setting_id`) REFERENCES `settings`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `owner_reports_by_machine` ON `owner_reports` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `owner_requests` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`question_id` text,
	`limit_key` text NOT NULL,
	`state` text NOT NULL,
	`asked_at` text NOT NULL,
	`remind_at` text,
	`answered_at` text,
	`note` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `owner_requests_by_machine` ON `owner_requests` (`machine_tag`);--> statement-breakpoint
CREATE INDEX `owner_requests_by_question` ON `owner_requests` (`question_id`);--> statement-breakpoint
CREATE TABLE `parts_out` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`job_id` text NOT NULL,
	`part_id` text NOT NULL,
	`outcome` text NOT NULL,
	`outcome_at` text,
	`credit_minor` integer NOT NULL,
	`item_id` text,
	`note` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`part_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`item_id`) REFERENCES `shelf_items`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `parts_out_by_job` ON `parts_out` (`job_id`);--> statement-breakpoint
CREATE TABLE `photos` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`request_id` integer,
	`question_id` text,
	`taken_by` text NOT NULL,
	`media_type` text NOT NULL,
	`bytes` blob NOT NULL,
	`at` text NOT NULL,
	`note` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`request_id`) REFERENCES `owner_requests`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`question_id`) REFERENCES `questions`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `photos_by_machine` ON `photos` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `reservations` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`job_id` text NOT NULL,
	`item_id` text NOT NULL,
	`quantity` integer NOT NULL,
	`reserved_at` text NOT NULL,
	`released_at` text,
	`used_at` text,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`item_id`) REFERENCES `shelf_items`(`id`) ON UPDATE no action ON DELETE no action,
	CONSTRAINT "reservations_some" CHECK("reservations"."quantity" > 0),
	CONSTRAINT "reservations_end_once" CHECK("reservations"."released_at" is null or "reservations"."used_at" is null)
);
--> statement-breakpoint
CREATE INDEX `reservations_by_job` ON `reservations` (`job_id`);--> statement-breakpoint
CREATE INDEX `reservations_by_item` ON `reservations` (`item_id`);--> statement-breakpoint
CREATE TABLE `sessions` (
	`token_hash` text PRIMARY KEY NOT NULL,
	`account_id` integer NOT NULL,
	`created_at` text NOT NULL,
	`seen_at` text NOT NULL,
	`expires_at` text NOT NULL,
	`address_hash` text NOT NULL,
	FOREIGN KEY (`account_id`) REFERENCES `accounts`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `sessions_by_account` ON `sessions` (`account_id`);--> statement-breakpoint
CREATE TABLE `sign_in_attempts` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`at` text NOT NULL,
	`name_hash` text NOT NULL,
	`address_hash` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `sign_in_attempts_by_name` ON `sign_in_attempts` (`name_hash`,`at`);--> statement-breakpoint
CREATE INDEX `sign_in_attempts_by_address` ON `sign_in_attempts` (`address_hash`,`at`);--> statement-breakpoint
CREATE TABLE `state_changes` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`about` text NOT NULL,
	`ref` text NOT NULL,
	`at` text NOT NULL,
	`from` text NOT NULL,
	`to` text NOT NULL,
	`because` text
);
--> statement-breakpoint
CREATE INDEX `state_changes_by_ref` ON `state_changes` (`about`,`ref`);--> statement-breakpoint
CREATE TABLE `warranties` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`part_id` text NOT NULL,
	`job_id` text,
	`given_by` text NOT NULL,
	`from` text NOT NULL,
	`until` text NOT NULL,
	`ends_with` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`part_id`) REFERENCES `parts`(`id`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`job_id`) REFERENCES `jobs`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `warranties_by_machine` ON `warranties` (`machine_tag`);--> statement-breakpoint
ALTER TABLE `questions` ADD `asks` text DEFAULT 'what can I do' NOT NULL;--> statement-breakpoint
ALTER TABLE `questions` ADD `came_by` text DEFAULT 'mail' NOT NULL;--> statement-breakpoint
ALTER TABLE `questions` ADD `complaint` text;--> statement-breakpoint
ALTER TABLE `questions` ADD `part_in_mind` text;--> statement-breakpoint
ALTER TABLE `questions` ADD `planned_width_px` integer;--> statement-breakpoint
ALTER TABLE `questions` ADD `planned_height_px` integer;--> statement-breakpoint
ALTER TABLE `questions` ADD `planned_hz` real;--> statement-breakpoint
ALTER TABLE `questions` ADD `state` text DEFAULT 'new' NOT NULL;--> statement-breakpoint
ALTER TABLE `questions` ADD `remind_at` text;--> statement-breakpoint
ALTER TABLE `questions` ADD `customer_id` text REFERENCES customers(id);--> statement-breakpoint
CREATE INDEX `questions_by_state` ON `questions` (`state`);--> statement-breakpoint
ALTER TABLE `shelf_items` ADD `warranty_ends_with` text;--> statement-breakpoint
ALTER TABLE `shops` ADD `supply_full_years` real DEFAULT 5 NOT NULL;--> statement-breakpoint
ALTER TABLE `shops` ADD `supply_loss_pct_per_year` real DEFAULT 2 NOT NULL;--> statement-breakpoint
ALTER TABLE `shops` ADD `room_c` real;--> statement-breakpoint
ALTER TABLE `shops` ADD `cooling_margin_c` real DEFAULT 5 NOT NULL;